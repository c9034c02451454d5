"""The room of the rule part-left-out."""
