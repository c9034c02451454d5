"""The room of the rule battery-beside-heat."""
