"""The room of the rule over-torque."""
