"""The room of the rule missing-field."""
