"""The room of the rule harsh-profile."""
