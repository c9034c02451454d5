"""The room of the rule unknown-field."""
