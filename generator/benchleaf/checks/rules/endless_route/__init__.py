"""The room of the rule endless-route."""
