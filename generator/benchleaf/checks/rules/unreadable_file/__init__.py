"""The room of the rule unreadable-file."""
