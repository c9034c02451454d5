"""Parts of a knowledge base: what is found in them is what a check of the whole finds there, each finding once."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING

import pytest

from benchleaf import build
from benchleaf.checks import engine
from benchleaf.checks.rules import RULES
from benchleaf.checks.scope import Scope, shard
from benchleaf.dryrun.performed import performed, touched
from benchleaf.source.folder import Folder, scan
from tests.conftest import ROOT
from tests.make import folder as made
from tests.test_rules import EVERY

if TYPE_CHECKING:
    from benchleaf.dryrun.trace import Trace
    from benchleaf.findings import Finding

UNUSED = "steps:\n  - {do: Heat it for a while., allow: [{rule: live-board, because: It is off.}]}\n"

FAULTS = {
    # In an opening, which every procedure of the device passes through.
    "devices/godwit.yml": [("power: off", "power: on")],
    "devices/whimbrel.yml": [("unplug: battery-plug", "unplug: strobe-plug")],
    "devices/dunlin.yml": [("unplug: battery-plug", "unplug: display-plug")],
    "repairs/godwit/clean-charge-port.yml": [("revision: 4", "revison: 4")],
    "repairs/godwit/make-swollen-battery-safe.yml": [("status:", "allow: x\nstatus:")],
    "repairs/any/check-charge-hold.yml": [("power: off", "power: on")],
    "repairs/dunlin/replace-port-board.yml": [("steps:\n", UNUSED)],
    "shop.yml": [("Saltmarsh Instrument Bench\n", "Saltmarsh Instrument Bench #4\n")],
    "symptoms.yml": [("no-charge:", "no-chrage:")],
}


def spoilt() -> Folder:
    """Return the demonstration with faults in files that procedures share, and in others."""
    folder = scan(ROOT, "procedures")
    return replace(folder, files=tuple(replace(file, data=_spoilt(file.path, file.data)) for file in folder.files))


def _spoilt(path: str, data: bytes) -> bytes:
    text = data.decode()
    for before, after in FAULTS.get(path.removeprefix("procedures/"), []):
        assert before in text
        text = text.replace(before, after, 1)
    return text.encode()


FOLDER = spoilt()
WHOLE = build.check(FOLDER, pages=False)


def found(scope: Scope) -> tuple[Finding, ...]:
    """Return what is found in *scope*."""
    return build.check(FOLDER, pages=False, scope=scope).findings


def test_faults_are_many_and_shared() -> None:
    """The faults show in devices on several variants, in procedures, and in files that belong to no device."""
    places = {finding.place.path.split("/")[1] for finding in WHOLE.findings}

    assert {"devices", "diagnosis", "repairs", "shop.yml"} <= places
    assert 25 < len(WHOLE.findings)
    assert any(len(finding.variants) > 1 for finding in WHOLE.findings if "/devices/" in finding.place.path)


@pytest.mark.parametrize("count", [1, 2, 4, 9])
def test_union_of_shards(count: int) -> None:
    """All parts together find exactly what one check finds, each finding once, with its variants and its reason."""
    parts = [found(Scope(shard=shard(FOLDER.files, number, count))) for number in range(1, count + 1)]

    assert sorted(engine.in_order(WHOLE.findings), key=repr) == sorted(
        (one for part in parts for one in part), key=repr
    )


def test_shards_share_the_work() -> None:
    """Each file belongs to one part, the parts are about alike, and no procedure is performed in two of them."""
    parts = [shard(FOLDER.files, number, 2) for number in (1, 2)]
    told = [performed_in(Scope(shard=part)) for part in parts]

    assert all(1 == sum(part.has(file.path) for part in parts) for file in FOLDER.files)
    assert performed_in(Scope()) == sum(told)
    assert 2 > max(told) / min(told)


def performed_in(scope: Scope) -> int:
    """Return how many procedures are performed to know all that is to be found in *scope*."""
    told = {0}
    build.check(FOLDER, pages=False, scope=scope, watcher=lambda _, total: told.add(total))
    return max(told)


@pytest.mark.parametrize("path", ["procedures/devices/godwit.yml", "procedures/repairs/any", "procedures/shop.yml",
                                  "procedures/repairs/godwit/make-swollen-battery-safe.yml"])  # fmt: skip
def test_some_files(path: str) -> None:
    """What is found in some files alone is what a check of the whole finds in them."""
    inside = [one for one in WHOLE.findings if one.place.path == path or one.place.path.startswith(f"{path}/")]

    assert inside == list(found(Scope((path,))))


def test_few_are_performed() -> None:
    """For one procedure little else is performed: its own, and what leads to it."""
    seen: list[int] = []

    scope = Scope(("procedures/repairs/godwit/clean-charge-port.yml",))
    build.check(scan(ROOT, "procedures"), pages=False, scope=scope, watcher=lambda _, total: seen.append(total))

    assert 4 == max(seen)


def test_rules_look_where_they_may() -> None:
    """What a rule sees in a trace lies in the files of its steps, in all bad cases of all rules: parts rest on it."""
    astray = []
    for case in (one for one in EVERY if one.bad):
        base = build.read_base(made(case.files))
        for _, group in groupby(performed(base), key=lambda trace: trace.procedure.path):
            traces = tuple(group)
            may = set(touched(base, traces[0].procedure))
            seen = [*engine.compare(traces, RULES.values()), *(one for trace in traces for one in _seen(trace))]
            astray += [(case.title, one) for one in seen if one.place.path not in may]

    assert [] == astray


def _seen(trace: Trace) -> list[Finding]:
    return list(engine.watch(trace, RULES.values()))
