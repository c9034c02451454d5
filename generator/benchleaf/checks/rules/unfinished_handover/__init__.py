"""The room of the rule unfinished-handover."""
