"""The room of the rule unsupported-cause."""
