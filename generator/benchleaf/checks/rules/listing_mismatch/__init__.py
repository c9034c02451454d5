"""The room of the rule listing-mismatch."""
