"""The room of the rule bad-quantity."""
