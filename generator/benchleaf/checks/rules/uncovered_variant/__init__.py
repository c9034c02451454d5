"""The room of the rule uncovered-variant."""
