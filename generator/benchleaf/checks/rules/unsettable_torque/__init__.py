"""The room of the rule unsettable-torque."""
