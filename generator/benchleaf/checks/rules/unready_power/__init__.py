"""The room of the rule unready-power."""
