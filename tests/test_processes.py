"""Work that several processes share comes out as that of one, and none of them outlives it."""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
import time
from functools import partial
from typing import TYPE_CHECKING

import pytest

from benchleaf.findings import Refused
from benchleaf.processes import SETTING, processes, shared, tally
from tests.bench import as_yaml
from tests.conftest import COMMAND, ROOT, run

if TYPE_CHECKING:
    from pathlib import Path

# Later Pythons warn of a fork beside other threads, such as the test runner's; nothing here needs what those hold.
pytestmark = pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning")

HERE = os.getpid()
ENDLESS = """
import os, time
from benchleaf.processes import shared

def task():
    print(os.getpid(), flush=True)
    time.sleep(0.2)

shared([task] * 1000, 2)
"""
BREAKING = """
import os, time
from dataclasses import replace
from benchleaf import cli
from benchleaf.checks.rules import RULES

here = os.getpid()

def watch(trace):
    if os.getpid() != here:
        raise ValueError("a slip of the pen")
    time.sleep(0.01)
    return ()

RULES["live-board"] = replace(RULES["live-board"], watch=watch)
cli.main()
"""


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a knowledge base of 30 procedures on two devices."""
    folder = tmp_path_factory.mktemp("sound")
    as_yaml.write(30, folder, ROOT / "procedures")
    return folder


def test_tally() -> None:
    """One who looks on is told how many are done in all processes: ever more, and never more than there are."""
    told: list[tuple[int, int]] = []

    with tally(60, lambda done, total: told.append((done, total))) as counted:
        shared([counted] * 60, 2)

    assert {60} == {total for _, total in told}
    assert sorted(told) == told
    assert 60 >= told[-1][0] > 0


def test_results_come_in_order() -> None:
    """Each task is done once, and its result stands where the task stood, also where a ticket is for several."""
    tasks = [partial(pow, number, 2) for number in range(2500)]

    assert [number**2 for number in range(2500)] == shared(tasks, 3)


def test_helper_helps() -> None:
    """More than one process takes part."""
    seen = shared([_whose] * 20, 2)

    assert {True, False} == set(seen)


def test_what_breaks_in_a_helper_is_raised() -> None:
    """An error in a helper is raised where the work was asked for, with the traceback of the helper."""
    with pytest.raises(KeyError, match="in a helper") as raised:
        shared([_breaks] * 20, 2)

    assert "in _breaks" in raised.value.__notes__[0]


def test_helper_that_is_ended_is_told() -> None:
    """A helper that the system ends, for want of memory say, is an error and never a part left out."""
    with pytest.raises(RuntimeError, match="ended from outside"):
        shared([_vanishes] * 20, 2)


@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM, signal.SIGKILL])
def test_no_helper_is_left_behind(how: signal.Signals) -> None:
    """However the one that asked is ended, its helpers end as well, within the task that they are at."""
    with subprocess.Popen(
        (sys.executable, "-c", ENDLESS), stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
    ) as process:  # fmt: skip
        assert process.stdout
        while len({process.stdout.readline() for _ in range(4)}) < 2:
            continue

        process.send_signal(how)

        # What it prints to stays open for as long as one of them lives.
        process.communicate(timeout=5)
        assert process.returncode


def test_broken_rule_stops_loudly(sound: Path) -> None:
    """A rule that breaks in a helper ends the check as it does without helpers, and its traceback can be had."""
    said = subprocess.run(
        (sys.executable, "-c", BREAKING, "check"), cwd=sound, env={**os.environ, SETTING: "2", "BENCHLEAF_DEBUG": "1"},
        capture_output=True, text=True, check=False, timeout=60,
    )  # fmt: skip

    assert "RuleCrashed: The rule live-board broke on procedures/repairs/" in said.stderr
    assert "ValueError: a slip of the pen" in said.stderr
    assert "no finding" not in said.stderr


def test_findings_are_those_of_one_process(sound: Path, tmp_path: Path) -> None:
    """What three processes find of faults in every procedure is what one finds, to the letter."""
    spoilt = tmp_path / "spoilt"
    shutil.copytree(sound, spoilt)
    for path in spoilt.glob("procedures/repairs/*/*.yml"):
        text = path.read_text("utf-8").replace("for: 4 min", "for: 4 s").replace("350 °C", "380 °C")
        path.write_text(text, "utf-8")

    alone, together = (_said(spoilt, number, "check", "--format", "json") for number in ("1", "3"))

    assert 30 < len(json.loads(alone)["findings"])
    assert alone == together


def test_pages_are_those_of_one_process(sound: Path) -> None:
    """Each file of a site that three processes made has the bytes of the one that one process made."""
    sites = []
    for number in ("1", "3"):
        _said(sound, number, "build")
        sites.append({path.relative_to(sound): path.read_bytes() for path in sound.glob("site/**/*.*")})

    assert 30 < len(sites[0])
    assert sites[0] == sites[1]


def test_small_base_needs_no_help(monkeypatch: pytest.MonkeyPatch) -> None:
    """A base of a few procedures is checked by one process, unless one asks for more."""
    monkeypatch.delenv(SETTING, raising=False)

    assert 1 == processes(99)


@pytest.mark.parametrize("said", ["0", "two", "-1", "1.5", "²"])
def test_number_must_be_one(said: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is no number of processes is refused in one line."""
    monkeypatch.setenv(SETTING, said)

    with pytest.raises(Refused, match="whole number"):
        processes(1000)


def _whose() -> bool:
    time.sleep(0.05)
    return os.getpid() == HERE


def _breaks() -> None:
    if not _whose():
        raise KeyError("in a helper")


def _vanishes() -> None:
    if not _whose():
        os._exit(9)


def _said(folder: Path, number: str, *arguments: str) -> str:
    said = run("env", f"{SETTING}={number}", COMMAND, *arguments, cwd=folder)
    assert said.returncode < 2, said.stderr
    return said.stdout
