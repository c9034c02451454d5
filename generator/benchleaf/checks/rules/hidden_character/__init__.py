"""The room of the rule hidden-character."""
