"""Quantities as people write them: text with a unit in, typed numbers out."""
