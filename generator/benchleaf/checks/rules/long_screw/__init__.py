"""The room of the rule missing-torque."""
