"""From what was counted to what to do next: shares, Bayes, the order of tests and cures, repair or replace."""
