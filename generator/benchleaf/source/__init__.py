"""Text in, nodes out: every value keeps the place where it was written."""
