"""The room of the rule missing-instruction."""
