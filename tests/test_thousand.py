"""One broken file among a thousand hides nothing of what is wrong with the others."""

from __future__ import annotations

from benchleaf import build
from tests.make import DOCS, folder

LOOK = "title: Look at lens {number}\npurpose: inspection\nsteps:\n  - {{do: Look at the lens., record: photo}}\n"
HIDDEN = "  - {do: Unplug the lamp., unplug: lamp-plug}\n"


def test_one_broken_file() -> None:
    """A file that is no YAML is one finding, where it breaks; what is wrong in other files is found all the same."""
    files = {f"{DOCS}/repairs/wader/look-{number:03}.yml": LOOK.format(number=number) for number in range(1000)}
    broken, forgetful = f"{DOCS}/repairs/wader/look-500.yml", f"{DOCS}/repairs/wader/look-900.yml"
    files[broken] += "  - {do: Look again.\n"
    files[forgetful] = files[forgetful].replace("purpose: inspection", "access: open") + HIDDEN

    checked = build.check(folder(files), pages=False)

    assert [(broken, "unreadable-file"), (forgetful, "part-left-out")] == [
        (finding.place.path, finding.rule) for finding in checked.findings
    ]
    assert 1_000 == len(checked.base.procedures)
