"""The room of the rule unbalanced-outcomes."""
