"""The room of the rule early-battery."""
