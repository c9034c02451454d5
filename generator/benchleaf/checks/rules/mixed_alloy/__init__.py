"""The room of the rule mixed-alloy."""
