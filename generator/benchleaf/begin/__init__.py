"""A knowledge base, and what a new file is to be about -> the text of a draft that passes the check."""
