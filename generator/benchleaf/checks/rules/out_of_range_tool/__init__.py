"""The room of the rule out-of-range-tool."""
