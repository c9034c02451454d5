"""The room of the rule lopsided-closing."""
