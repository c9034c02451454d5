"""Benchleaf: structured repair procedures in, findings and a static site out."""

__version__ = "0.1.0"
