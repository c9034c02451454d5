"""`benchleaf check` with its formats, files and parts, as a shell or a CI system calls it."""

from __future__ import annotations

import gc
import io
import json
import os
import pty
import shutil
import subprocess
import sys
from typing import TYPE_CHECKING, NamedTuple

import pytest
from junitparser import JUnitXml

from benchleaf import build, cli
from benchleaf.cli import terminal
from benchleaf.cli.terminal import progress
from benchleaf.report import FORMATS
from benchleaf.source import packaged
from benchleaf.source.folder import scan
from tests.conftest import COMMAND
from tests.test_cli import change

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

DEVICE = "procedures/devices/knot.yml"
PROCEDURE = "procedures/repairs/knot/replace-battery.yml"


class Done(NamedTuple):
    """What a command said, and its exit code."""

    returncode: int
    stdout: str
    stderr: str


@pytest.fixture(name="call")
def in_this_process(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Callable[..., Done]:
    """Return what runs a check in a folder, in this process: what takes longest is to load all modules."""
    for name in ("NO_COLOR", "FORCE_COLOR", "GITHUB_STEP_SUMMARY"):
        monkeypatch.delenv(name, raising=False)

    def call(folder: Path, *arguments: str, stdin: str = "", **environment: str) -> Done:
        with monkeypatch.context() as patch:
            patch.chdir(folder)
            patch.setattr(sys, "argv", ["benchleaf", "check", *arguments])
            patch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(stdin.encode())))
            for name, value in environment.items():
                patch.setenv(name, value)
            with pytest.raises(SystemExit) as end:
                cli.main()
        gc.enable()
        return Done(int(str(end.value.code)), *capsys.readouterr())

    return call


@pytest.fixture(name="sound")
def sound_base(tmp_path: Path) -> Path:
    """Return the small knowledge base of `benchleaf init`, in a folder of a checkout."""
    (tmp_path / ".git").mkdir()
    shutil.copytree(packaged.starter(), tmp_path / "kb")
    return tmp_path / "kb"


@pytest.fixture(name="faulty")
def faulty_base(sound: Path) -> Path:
    """Return the same with an error and a warning."""
    change(sound, "devices/knot.yml", "heat_limit: 60 °C", "heat_limit: 60")
    change(sound, "shop.yml", "My Instrument Bench\n", "My Instrument Bench #4\n")
    return sound


@pytest.mark.parametrize("form", FORMATS)
def test_no_absolute_path(call: Callable[..., Done], faulty: Path, form: str) -> None:
    """No format holds an absolute path or a backslash in one, and each ends with 1 where something stops."""
    done = call(faulty, "--format", form)

    assert 1 == done.returncode
    assert "devices/knot.yml" in done.stdout
    assert str(faulty.parent) not in done.stdout
    assert "\\devices" not in done.stdout


@pytest.mark.parametrize("form", ["sarif", "junit", "github", "gitlab"])
def test_path_from_the_checkout(call: Callable[..., Done], faulty: Path, form: str) -> None:
    """What CI systems read gives paths from the top of the checkout, wherever in it the knowledge base lies."""
    done = call(faulty / "procedures", "--format", form)

    assert f"{faulty.name}/{DEVICE}" in done.stdout


def test_output(call: Callable[..., Done], faulty: Path) -> None:
    """Findings go to the file that is named, the sentence to the terminal, and stdout stays empty."""
    printed = call(faulty, "--format", "junit")

    done = call(faulty, "--format", "junit", "--output", "junit.xml")

    assert (1, "") == (done.returncode, done.stdout)
    assert printed.stderr == done.stderr
    assert printed.stdout == (faulty / "junit.xml").read_text("utf-8")
    assert 1 == JUnitXml.fromfile(str(faulty / "junit.xml")).failures
    assert [] == [path.name for path in faulty.iterdir() if path.name.startswith(".junit")]


def test_output_is_whole_or_not_there(faulty: Path) -> None:
    """A disk that is full leaves the last report as it was, and says so; nothing half written stays behind."""
    (faulty / "found.json").write_text("old")
    script = f"ulimit -f 1; {COMMAND} check --format sarif --output found.json"

    done = subprocess.run(["bash", "-c", script], cwd=faulty, capture_output=True, text=True, check=False)  # noqa: S607 (the machine's own)

    assert (2, "old") == (done.returncode, (faulty / "found.json").read_text())
    assert "File too large" in done.stderr
    assert ["found.json"] == [path.name for path in faulty.iterdir() if "found.json" in path.name]


@pytest.mark.parametrize("arguments", [("--output", "procedures"), ("--output", "none/there.json"), ("--shard", "0/4"),
                                       ("--shard", "5/4"), ("--shard", "half"), ("--ignore", "part-left-uot"),
                                       ("--stdin-filename", "mkdocs.yml"), ("--stdin-filename", "/elsewhere/a.yml"),
                                       ("--stdin-filename", "procedures/a.yml", "--shard", "1/2")])  # fmt: skip
def test_refused(call: Callable[..., Done], faulty: Path, arguments: tuple[str, ...]) -> None:
    """What cannot be meant is refused in one line before anything is checked."""
    done = call(faulty, *arguments)

    assert (2, "") == (done.returncode, done.stdout)
    assert 1 == len(done.stderr.splitlines())


def test_nearest_rule(call: Callable[..., Done], faulty: Path) -> None:
    """A rule that nobody knows is refused with the nearest name."""
    assert "did you mean part-left-out?" in call(faulty, "--select", "part-left-uot").stderr


def test_stdin(call: Callable[..., Done], faulty: Path) -> None:
    """The text of an editor is checked as if it stood at its path: all else counts, and only it is reported."""
    text = (faulty / PROCEDURE).read_text("utf-8")

    sound = call(faulty, "--stdin-filename", PROCEDURE, stdin=text)
    spoilt = call(faulty, "--stdin-filename", PROCEDURE, stdin=text.replace("revision:", "revison:"))

    assert (0, "") == (sound.returncode, sound.stdout)
    assert (1, 1) == (spoilt.returncode, spoilt.stdout.count("unknown-field"))
    assert spoilt.stdout.startswith(f"{PROCEDURE}:")
    assert text == (faulty / PROCEDURE).read_text("utf-8")


def test_stdin_of_a_new_file(call: Callable[..., Done], faulty: Path) -> None:
    """A file that is not yet on the disk, in a folder that is not there yet, is checked too."""
    new = "repairs/avocet/new.yml"

    done = call(faulty / "procedures", "--stdin-filename", new, stdin="title: New\nsteps: []\n")

    assert 1 == done.returncode
    assert done.stdout.startswith(f"procedures/{new}:")


def test_shards(call: Callable[..., Done], faulty: Path) -> None:
    """The findings of all parts are those of one check, and each part says how much it looked at."""
    whole = json.loads(call(faulty, "--format", "json").stdout)
    parts = [json.loads(call(faulty, "--format", "json", "--shard", f"{n}/3").stdout) for n in (1, 2, 3)]

    assert sorted(map(str, whole["findings"])) == sorted(str(one) for part in parts for one in part["findings"])
    assert {key: sum(part["summary"][key] for part in parts) for key in whole["summary"]} == whole["summary"]


def test_shard_in_sarif(call: Callable[..., Done], faulty: Path) -> None:
    """Each part is a run of its own name, so that one does not replace the other."""
    [run_of] = json.loads(call(faulty, "--format", "sarif", "--shard", "2/3").stdout)["runs"]

    assert "benchleaf/2-of-3/" == run_of["automationDetails"]["id"]


def test_step_summary(call: Callable[..., Done], faulty: Path) -> None:
    """Where GitHub names a file for the summary of a step, the findings are added to it; other formats leave it."""
    file = faulty / "summary.md"
    file.write_text("# Before\n")

    call(faulty, GITHUB_STEP_SUMMARY=str(file))
    call(faulty, "--format", "github", GITHUB_STEP_SUMMARY=str(file))

    assert file.read_text("utf-8").startswith("# Before\n## Benchleaf\n")
    assert 2 == file.read_text("utf-8").count("\n| error") + file.read_text("utf-8").count("\n| warning")


def at_terminal(folder: Path, **environment: str) -> str:
    """Return what a check shows on a terminal, stdout and stderr together."""
    ours, theirs = pty.openpty()
    known = {name: value for name, value in os.environ.items() if name not in {"NO_COLOR", "FORCE_COLOR"}}
    with subprocess.Popen([COMMAND, "check"], cwd=folder, stdin=theirs, stdout=theirs, stderr=theirs,
                          env={**known, "TERM": "xterm", **environment}):  # fmt: skip
        os.close(theirs)
        shown = b""
        while piece := _read(ours):
            shown += piece
    os.close(ours)
    return shown.decode().replace("\r\n", "\n")


def _read(terminal: int) -> bytes:
    try:
        return os.read(terminal, 4096)
    except OSError:  # What a terminal says when the last one who wrote to it has gone.
        return b""


def test_colour_on_a_terminal(call: Callable[..., Done], faulty: Path) -> None:
    """A terminal shows the weight in colour; with NO_COLOR, and in a pipe, there are the same words without."""
    shown = at_terminal(faulty)
    plain = at_terminal(faulty, NO_COLOR="1")
    piped = call(faulty)

    assert "\x1b[1;31merror\x1b[0m bad-quantity: " in shown
    assert "\x1b" not in plain + piped.stdout + piped.stderr
    assert piped.stdout + piped.stderr == plain


def test_colour_where_it_is_asked_for(call: Callable[..., Done], faulty: Path) -> None:
    """FORCE_COLOR colours a pipe, but no file and no other format, and NO_COLOR is stronger."""
    call(faulty, "--output", "found.txt", FORCE_COLOR="1")

    assert "\x1b" in call(faulty, FORCE_COLOR="1").stdout
    assert "\x1b" not in call(faulty, NO_COLOR="1", FORCE_COLOR="1").stdout
    assert "\x1b" not in call(faulty, "--format", "junit", FORCE_COLOR="1").stdout
    assert "\x1b" not in (faulty / "found.txt").read_text("utf-8")


def test_quiet_when_all_is_well(call: Callable[..., Done], sound: Path) -> None:
    """Where all is well, one sentence is all there is."""
    assert (0, "", "1 procedure, 1 variant, 1 device checked: no finding\n") == call(sound)


def test_progress(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Long work tells a terminal how far it is, on one line that is wiped; a pipe and short work tell nothing."""
    with progress("procedures") as nobody:
        pass
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    monkeypatch.setenv("TERM", "xterm")
    with progress("procedures") as short:
        assert short is not None
        short(1, 2_000)
    quiet = capsys.readouterr().err
    monkeypatch.setattr(terminal, "_PATIENCE", 0.0)
    with progress("procedures") as long:
        assert long is not None
        long(1_000, 2_000)

    assert (None, "") == (nobody, quiet)
    assert f"\r1,000 of 2,000 procedures\r{' ' * 25}\r" == capsys.readouterr().err


def test_progress_of_what(sound: Path) -> None:
    """What is told is how many procedures of how many are performed."""
    told: list[tuple[int, int]] = []

    build.check(scan(sound, "procedures"), watcher=lambda done, total: told.append((done, total)))

    assert [(1, 1)] == told
