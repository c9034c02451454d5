"""The knowledge base as typed, frozen values, built only from nodes that fit the schemas."""
