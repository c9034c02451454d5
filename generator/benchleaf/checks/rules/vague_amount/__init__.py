"""The room of the rule vague-amount."""
