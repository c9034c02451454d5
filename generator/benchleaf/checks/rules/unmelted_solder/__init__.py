"""The room of the rule unmelted-solder."""
