"""Nodes and schemas in, faults out: whether a document has the shape of its kind, said in the author's words."""
