"""The room of the rule contradicting-number."""
