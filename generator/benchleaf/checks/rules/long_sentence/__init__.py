"""The room of the rule long-sentence."""
