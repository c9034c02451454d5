"""The room of the rule misread-value."""
