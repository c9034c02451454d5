"""The room of the rule reused-damaged-battery."""
