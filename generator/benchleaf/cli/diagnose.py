"""`benchleaf diagnose`: what is behind a symptom, and the cheapest way to find and cure it."""

from __future__ import annotations

import gc
from pathlib import Path

import click

from benchleaf import build
from benchleaf.checks.asked import diagnosis_named, outcomes_given, states_arrived, variant_named
from benchleaf.cli.asked import knowledge_base
from benchleaf.cli.terminal import CLEAN, FOUND, say, tell
from benchleaf.decisions.diagnose import diagnose as answer
from benchleaf.decisions.diagnose import possible
from benchleaf.findings import Refused
from benchleaf.report import DIAGNOSES


@click.command("diagnose")
@click.argument("device")
@click.argument("symptom")
@click.option("--given", multiple=True, metavar="TEST=OUTCOME", help="What a test has shown; several in their order.")
@click.option("--arrived", multiple=True, metavar="WHAT=HOW", help="How the device came: liquid=water, power=dead ...")
@click.option("--variant", metavar="VARIANT", help="Plan for this variant; for the first where none is named.")
@click.option("--format", "form", type=click.Choice(list(DIAGNOSES)), default="text", help="How the answer is written.")
def command(  # noqa: PLR0913  (one argument for each option that a person may give)
    device: str,
    symptom: str,
    *,
    given: tuple[str, ...],
    arrived: tuple[str, ...],
    variant: str | None,
    form: str,
) -> int:
    """Say what is behind SYMPTOM on DEVICE, how likely each cause is, and the cheapest way to find and cure it."""
    gc.disable()  # As above.
    base = build.read_base(knowledge_base(Path.cwd()))
    asked = diagnosis_named(base, device, symptom)
    if asked is None:
        tell(f"The diagnosis of {symptom} on {device} cannot be read: `benchleaf check` says what is wrong.")
        return FOUND
    seen, came, own = outcomes_given(asked, given), states_arrived(arrived), variant_named(base, device, variant)
    if not possible(asked, seen):
        raise Refused("No cause of this diagnosis shows these outcomes together: read them again")
    found = answer(base, asked, own, seen, came)
    say(DIAGNOSES[form](found))
    return CLEAN
