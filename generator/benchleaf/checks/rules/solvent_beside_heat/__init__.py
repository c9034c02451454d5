"""The room of the rule solvent-beside-heat."""
