"""`benchleaf explain`: what a rule finds, and why."""

from __future__ import annotations

import click

from benchleaf.checks.rules import RULES
from benchleaf.cli.asked import known_rule
from benchleaf.cli.terminal import CLEAN, say
from benchleaf.source import packaged


@click.command("explain")
@click.argument("rule", required=False)
@click.option("--all", "everything", is_flag=True, help="Explain every rule.")
def command(rule: str | None, *, everything: bool) -> int:
    """Say what RULE finds, why it matters, and what to write."""
    if rule is None and not everything:
        say("".join(f"{known.name:24} {known.level}\n" for known in RULES.values()))
        return CLEAN
    names = list(RULES) if everything else [known_rule(rule or "")]
    say("\n\n".join(packaged.rule_texts()[name].rstrip() for name in names) + "\n")
    return CLEAN
