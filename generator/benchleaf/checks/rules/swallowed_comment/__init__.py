"""The room of the rule swallowed-comment."""
