"""The room of the rule unproven-repair."""
