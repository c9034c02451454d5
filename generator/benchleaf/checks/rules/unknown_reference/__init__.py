"""The room of the rule unknown-reference."""
