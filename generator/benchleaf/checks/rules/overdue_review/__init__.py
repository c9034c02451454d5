"""The room of the rule overdue-review."""
