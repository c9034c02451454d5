"""`benchleaf facts`: what is known of a procedure once it was performed."""

from __future__ import annotations

import gc
from pathlib import Path

import click

from benchleaf import build
from benchleaf.checks.asked import must_have_variant, procedure_named, stopping
from benchleaf.cli.asked import knowledge_base
from benchleaf.cli.terminal import CLEAN, FOUND, say, tell
from benchleaf.report import FACTS


@click.command("facts")
@click.argument("procedure", metavar="DEVICE/PROCEDURE")
@click.option("--variant", metavar="VARIANT", help="Facts of this variant alone.")
@click.option("--format", "form", type=click.Choice(list(FACTS)), default="text", help="How facts are written.")
def command(procedure: str, variant: str | None, form: str) -> int:
    """Say what is known of DEVICE/PROCEDURE once it was performed: times, limits, what must dry, cool and come back."""
    gc.disable()  # As above.
    checked = build.check(knowledge_base(Path.cwd()), pages=False)
    asked = procedure_named(checked.base, procedure)
    if asked is not None and variant is not None:
        must_have_variant(checked.base, asked, variant)
    found = build.facts_of(checked, asked, variant) if asked else None
    if asked is None or found is None:
        tell(f"{procedure} cannot be performed as it is written: `benchleaf check` says what is wrong.")
        return FOUND
    say(FACTS[form](found))
    if asked.status == "withdrawn":
        tell(f"{procedure} is withdrawn: nobody works by it, and nothing checks it.")
    if stops := stopping(checked.findings, checked.base, asked):
        findings = "1 finding keeps" if stops == 1 else f"{stops} findings keep"
        tell(f"{findings} {procedure} from being published; these facts are of what is written.")
    return CLEAN
