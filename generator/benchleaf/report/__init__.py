"""Findings in, text out: one function for each format."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.report import json_, text

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchleaf.report.summary import Report

FORMATS: dict[str, Callable[[Report], str]] = {"text": text.render, "json": json_.render}
"""Each format that `benchleaf check --format` knows, by its name."""
