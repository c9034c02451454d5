"""The room of the rule unchecked-battery."""
