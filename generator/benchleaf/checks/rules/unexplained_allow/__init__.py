"""The room of the rule unexplained-allow."""
