"""The command line as its callers meet it: exit codes, what goes where, and no traceback whatever comes in."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
COMMAND = Path(sys.executable).parent / "benchleaf"


def run(folder: Path, *arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run the command in *folder*."""
    return subprocess.run(
        [COMMAND, *arguments],
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, **environment},
    )


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """Return a copy of the demonstration."""
    shutil.copytree(ROOT / "procedures", tmp_path / "procedures")
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
    return tmp_path


def change(shop: Path, path: str, before: str, after: str) -> None:
    """Change the first *before* in the file *path* of *shop* into *after*."""
    file = shop / "procedures" / path
    text = file.read_text(encoding="utf-8")
    assert before in text
    file.write_text(text.replace(before, after, 1), encoding="utf-8")


def tree(folder: Path) -> dict[str, str]:
    """Return the bytes of every file below *folder*, as a digest."""
    files = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest() for path in files}


def test_clean(shop: Path) -> None:
    """A sound knowledge base gives no finding on stdout, one sentence on stderr, and 0."""
    done = run(shop, "check")

    assert (0, "") == (done.returncode, done.stdout)
    assert done.stderr.rstrip().endswith("3 devices checked: no finding")


def test_four_faults_in_four_files(shop: Path) -> None:
    """A mistyped key, a missing unit, a key given twice and a wrong name are four findings, each at its place."""
    run(shop, "build")
    before = tree(shop / "site")
    change(shop, "repairs/godwit/clean-charge-port.yml", "revision: 4", "revison: 4")
    change(shop, "devices/dunlin.yml", "heat_limit: 60 °C", "heat_limit: 60")
    change(shop, "symptoms.yml", "no-reading:", "no-charge:")
    change(shop, "repairs/whimbrel/replace-antenna-socket.yml", "use: [microscope]", "use: [microscop]")

    done = run(shop, "check", "--format", "json")
    built = run(shop, "build")

    found = [(one["path"].rsplit("/", 1)[1], one["rule"]) for one in json.loads(done.stdout)["findings"]]
    assert 1 == done.returncode
    assert [
        ("dunlin.yml", "bad-quantity"),
        ("clean-charge-port.yml", "unknown-field"),
        ("replace-antenna-socket.yml", "unknown-reference"),
        ("symptoms.yml", "duplicate-key"),
    ] == found
    for one in json.loads(done.stdout)["findings"]:
        line = (shop / one["path"]).read_text(encoding="utf-8").splitlines()[one["line"] - 1]
        assert line[one["column"] - 1 :].startswith(("60", "revison", "microscop", "no-charge"))
    assert 1 == built.returncode
    assert tree(shop / "site") == before


def test_json_shape(shop: Path) -> None:
    """The JSON has the keys that other programs are promised."""
    change(shop, "devices/dunlin.yml", "heat_limit: 60 °C", "heat_limit: 60")

    whole = json.loads(run(shop, "check", "--format", "json").stdout)

    assert {"findings", "summary"} == set(whole)
    assert {"rule", "level", "message", "path", "line", "column", "help", "variants"} == set(whole["findings"][0])
    assert 1 == whole["summary"]["stop"]


def test_path_reports_there_and_reads_all(shop: Path) -> None:
    """A path narrows what is reported, not what is read: names from elsewhere still count."""
    change(shop, "devices/dunlin.yml", "heat_limit: 60 °C", "heat_limit: 60")

    inside = run(shop, "check", "procedures/devices")
    outside = run(shop, "check", "procedures/repairs/godwit")

    assert (1, 0) == (inside.returncode, outside.returncode)
    assert "" == outside.stdout


def test_select_and_ignore(shop: Path) -> None:
    """Rules can be picked or left out by name."""
    change(shop, "devices/dunlin.yml", "heat_limit: 60 °C", "heat_limit: 60")

    assert 0 == run(shop, "check", "--ignore", "bad-quantity").returncode
    assert 0 == run(shop, "check", "--select", "duplicate-key").returncode
    assert 1 == run(shop, "check", "--select", "bad-quantity").returncode


def test_warning_stops_only_when_strict(shop: Path) -> None:
    """A warning is shown and does not stop, unless it is asked to."""
    change(shop, "shop.yml", "Saltmarsh Instrument Bench\n", "Saltmarsh Instrument Bench #4\n")

    assert 0 == run(shop, "check").returncode
    assert "swallowed-comment" in run(shop, "check").stdout
    assert 1 == run(shop, "check", "--strict").returncode


def test_reviews_on_a_day(shop: Path) -> None:
    """Overdue reviews are noted for the day that is given, even when strict, and never by a clock."""
    done = run(shop, "check", "--strict", "--today", "2027-02-10")
    change(shop, "repairs/godwit/renew-case-seal.yml", "reviewed: 2026-02-06", "reviewed: 2027-02-10")
    cured = run(shop, "check", "--strict", "--today", "2027-02-10")

    line, advice = done.stdout.splitlines()
    assert line.startswith("procedures/repairs/godwit/renew-case-seal.yml:6:11: note overdue-review: ")
    assert "    Review it, and write the day: `reviewed: 2027-02-10`." == advice
    assert done.stderr.rstrip().endswith("no finding, 1 note")
    assert (0, 0, "") == (done.returncode, cured.returncode, cured.stdout)


def test_what_is_allowed(shop: Path) -> None:
    """What authors have allowed is listed with their reasons where one asks, and stops nothing."""
    change(
        shop,
        "repairs/godwit/clean-charge-port.yml",
        "    record: photo\n",
        "    record: photo\n"
        "    picture: media/none.svg\n"
        "    allow: [{rule: missing-picture, because: It comes later.}]\n",
    )

    quiet, told = run(shop, "check", "--strict"), run(shop, "check", "--strict", "--show-allowed")

    assert (0, "", 0) == (quiet.returncode, quiet.stdout, told.returncode)
    assert ": allowed missing-picture: " in told.stdout
    assert "    It comes later.\n" in told.stdout


@pytest.mark.parametrize(
    "arguments",
    [
        ("check", "--today", "soon"),
        ("check", "--select", "dupplicate-key"),
        ("check", "nowhere"),
        ("check", "--format", "yaml"),
        ("explain", "no-such-rule"),
        ("nonsense",),
        ("init", "procedures"),
    ],
    ids=" ".join,
)
def test_refusal(shop: Path, arguments: tuple[str, ...]) -> None:
    """What cannot be done is refused with 2, in words and without a traceback."""
    done = run(shop, *arguments)

    assert (2, "") == (done.returncode, done.stdout)
    assert done.stderr.strip()
    assert "Traceback" not in done.stderr


def test_no_knowledge_base(tmp_path: Path) -> None:
    """Where nothing is, one line says so and what to do."""
    done = run(tmp_path, "check")

    assert 2 == done.returncode
    assert 1 == len(done.stderr.strip().splitlines())
    assert "benchleaf init" in done.stderr


def test_odd_things_in_the_folder(shop: Path) -> None:
    """A link that goes round, a folder called like a file and a named pipe end in one line, never in a traceback."""
    procedures = shop / "procedures"
    (procedures / "round.yml").mkdir()
    first = run(shop, "check")
    os.mkfifo(procedures / "pipe.yml")
    second = run(shop, "check")
    (procedures / "pipe.yml").unlink()
    (procedures / "loop").symlink_to(procedures)
    third = run(shop, "check")

    assert [0, 2, 2] == [done.returncode for done in (first, second, third)]
    assert "Traceback" not in first.stderr + second.stderr + third.stderr


def test_file_that_is_no_text(shop: Path) -> None:
    """Bytes that are no text are one finding, and every other file is still read."""
    (shop / "procedures" / "repairs" / "godwit" / "noise.yml").write_bytes(bytes(range(256)))

    done = run(shop, "check")

    assert 1 == done.returncode
    assert 1 == done.stdout.count("error")
    assert "unreadable-file" in done.stdout


def test_reader_that_goes_away(shop: Path) -> None:
    """Where the reader of our output has gone, nothing complains and the exit code is still the right one."""
    script = f"{COMMAND} explain --all | head -1; echo ${{PIPESTATUS[0]}}"

    done = subprocess.run(["bash", "-c", script], cwd=shop, capture_output=True, text=True, check=False)  # noqa: S607 (the machine's own)

    assert ["# unreadable-file", "0"] == done.stdout.split("\n")[:2]
    assert "" == done.stderr


def test_reader_that_goes_away_from_findings(shop: Path) -> None:
    """A pipe that nobody reads to its end does not make findings look like none."""
    change(shop, "devices/godwit.yml", "title:", "tilte:")
    script = f"{COMMAND} check 2>&1 | true; echo ${{PIPESTATUS[0]}}"

    done = subprocess.run(["bash", "-c", script], cwd=shop, capture_output=True, text=True, check=False)  # noqa: S607 (the machine's own)

    assert ("1\n", "") == (done.stdout, done.stderr)


def test_disk_that_is_full(shop: Path) -> None:
    """Where findings cannot be written, that is said, and nothing looks clean."""
    change(shop, "devices/godwit.yml", "title:", "tilte:")

    with Path("/dev/full").open("w") as full:
        done = subprocess.run([COMMAND, "check"], cwd=shop, stdout=full, stderr=subprocess.PIPE, text=True, check=False)

    assert (2, "benchleaf: This cannot be done: No space left on device\n") == (done.returncode, done.stderr)


def test_path_of_a_linked_file(shop: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    """A file that is linked into the knowledge base is reported where it is linked, not passed over."""
    change(shop, "devices/godwit.yml", "title:", "tilte:")
    real = tmp_path_factory.mktemp("shared") / "godwit.yml"
    linked = shop / "procedures" / "devices" / "godwit.yml"
    linked.rename(real)
    linked.symlink_to(real)

    done = run(shop.parent, "check", str(linked))

    assert done.stdout.startswith("procedures/devices/godwit.yml:2:1: error unknown-field: ")
    assert 1 == done.returncode


def test_terminal_that_knows_no_signs(shop: Path) -> None:
    """A terminal without UTF-8 does not end the check."""
    change(shop, "devices/dunlin.yml", "heat_limit: 60 °C", "heat_limit: 60 Ω")

    done = run(shop, "check", PYTHONIOENCODING="ascii", LC_ALL="C", PYTHONUTF8="0")

    assert 1 == done.returncode
    assert "Traceback" not in done.stderr


def test_init_refuses_what_is_there(tmp_path: Path) -> None:
    """A new knowledge base checks clean, and is never laid over something."""
    first, again = run(tmp_path, "init", "kb"), run(tmp_path, "init", "kb")

    assert (0, 2) == (first.returncode, again.returncode)
    assert 0 == run(tmp_path / "kb", "check", "--strict").returncode


def test_fault_of_ours(shop: Path, tmp_path: Path) -> None:
    """A rule that breaks is said loudly, ends in 3, and nothing is published."""
    script = (
        "import sys; from dataclasses import replace; from benchleaf.checks import rules; "
        "rules.RULES['endless-route'] = replace(rules.RULES['endless-route'], check=lambda base: 1 / 0); "
        "sys.argv = ['benchleaf', 'build']; from benchleaf.cli import main; main()"
    )

    done = subprocess.run([sys.executable, "-c", script], cwd=shop, capture_output=True, text=True, check=False)

    assert 3 == done.returncode
    assert "endless-route" in done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "site").exists()
