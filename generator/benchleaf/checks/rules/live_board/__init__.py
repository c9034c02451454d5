"""The room of the rule live-board."""
