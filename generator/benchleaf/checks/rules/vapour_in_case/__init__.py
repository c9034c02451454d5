"""The room of the rule vapour-in-case."""
