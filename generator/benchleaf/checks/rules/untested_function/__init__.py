"""The room of the rule untested-function."""
