"""The room of the rule missing-picture."""
