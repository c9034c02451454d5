"""The room of the rule overheated-joint."""
