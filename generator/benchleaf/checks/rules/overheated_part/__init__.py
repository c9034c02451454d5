"""The room of the rule overheated-part."""
