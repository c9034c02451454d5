"""The room of the rule never-powered-off."""
