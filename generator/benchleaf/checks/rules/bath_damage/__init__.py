"""The room of the rule bath-damage."""
