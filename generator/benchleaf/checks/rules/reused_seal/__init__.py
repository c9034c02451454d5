"""The room of the rule reused-seal."""
