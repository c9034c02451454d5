"""The room of the rule duplicate-key."""
