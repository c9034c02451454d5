"""The room of the rule several-instructions."""
