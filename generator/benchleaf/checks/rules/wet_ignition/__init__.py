"""The room of the rule wet-ignition."""
