"""The room of the rule unchecked-joint."""
