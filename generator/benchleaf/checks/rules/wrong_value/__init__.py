"""The room of the rule wrong-value."""
