"""The room of the rule unreachable-procedure."""
