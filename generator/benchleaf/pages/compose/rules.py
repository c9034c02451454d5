"""The pages of the rules, as Markdown: each room's own README, and a list of them all."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

_WEIGHT = {
    "error": "An error: it stops publication.",
    "warning": "A warning: it stops publication only with `--strict`.",
    "note": "A note: it never stops publication.",
}


def rule_pages(texts: Mapping[str, str], levels: Mapping[str, str]) -> dict[str, str]:
    """
    Return the Markdown of each rule's page and of their list, by path below the docs folder.

    *texts* gives each rule's README and *levels* its usual weight, both by the rule's name.
    """
    pages = {f"rules/{name}.md": _page(texts[name], levels[name]) for name in levels}
    pages["rules/index.md"] = _index(texts, levels)
    return pages


def _page(text: str, level: str) -> str:
    heading, _, rest = text.partition("\n")
    return f"{heading}\n\n{_WEIGHT[level]}\n{rest}\n\n[All rules](index.md)\n"


def _index(texts: Mapping[str, str], levels: Mapping[str, str]) -> str:
    lines = [
        "# Rules",
        "",
        "What `benchleaf check` looks for. Each rule says what it finds, why it matters to a person or a machine,",
        "and what to write instead.",
        "",
        "| Rule | Weight | Finds |",
        "| --- | --- | --- |",
    ]
    lines += [f"| [{name}]({name}.md) | {level} | {finds(texts[name])} |" for name, level in levels.items()]
    return "\n".join(lines) + "\n"


def finds(text: str) -> str:
    """Return the first paragraph under *What it finds* in a rule's *text*, on one line."""
    _, _, after = text.partition("## What it finds")
    paragraph = " ".join(after.strip().split("\n\n")[0].split())
    return paragraph.replace("|", "\\|")
