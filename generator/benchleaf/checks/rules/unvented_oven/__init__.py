"""The room of the rule unvented-oven."""
