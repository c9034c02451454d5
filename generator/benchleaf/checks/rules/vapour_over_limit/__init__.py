"""The room of the rule vapour-over-limit."""
