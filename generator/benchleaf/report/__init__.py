"""Findings or facts in, text out: one function for each format."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.report import (
    compare_json,
    compare_markdown,
    compare_text,
    diagnosis_json,
    diagnosis_text,
    facts_json,
    facts_text,
    github,
    gitlab,
    json_,
    junit,
    sarif,
    text,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchleaf.decisions.diagnose import Answer
    from benchleaf.derive.compare.comparison import Comparison
    from benchleaf.derive.facts import Facts
    from benchleaf.report.summary import Report

FORMATS: dict[str, Callable[[Report], str]] = {
    "text": text.render,
    "json": json_.render,
    "sarif": sarif.render,
    "junit": junit.render,
    "github": github.render,
    "gitlab": gitlab.render,
}
"""Each format that `benchleaf check --format` knows, by its name."""

FACTS: dict[str, Callable[[Facts], str]] = {"text": facts_text.render, "json": facts_json.render}
"""Each format that `benchleaf facts --format` knows, by its name."""

DIAGNOSES: dict[str, Callable[[Answer], str]] = {"text": diagnosis_text.render, "json": diagnosis_json.render}
"""Each format that `benchleaf diagnose --format` knows, by its name."""

COMPARISONS: dict[str, Callable[[Comparison], str]] = {
    "text": compare_text.render,
    "markdown": compare_markdown.render,
    "json": compare_json.render,
}
"""Each format that `benchleaf compare --format` knows, by its name."""
