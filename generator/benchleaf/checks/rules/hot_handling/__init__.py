"""The room of the rule hot-handling."""
