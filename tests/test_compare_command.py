"""`benchleaf compare` as its callers meet it: what git holds, exit codes, formats, and the work tree left alone."""

from __future__ import annotations

import json
import shutil
import subprocess
from typing import TYPE_CHECKING

import pytest
from markdown import markdown

from tests.command import Done, run
from tests.conftest import ROOT

if TYPE_CHECKING:
    from pathlib import Path

PORT = "repairs/godwit/clean-charge-port.yml"
MEASURE = """\
  - do: Measure from the supply pin to ground.
    check: {measure: resistance, with: multimeter, expect: "> 10 kΩ", if_not: {go_to: trace-charge-rail-short}}
    takes: 20–40 s
"""


def compare(folder: Path, *arguments: str) -> Done:
    """Run the comparison in *folder*."""
    return run(folder, "compare", *arguments)


def git(folder: Path, *arguments: str) -> str:
    """Run git in *folder*, as nobody in particular."""
    who = ("-c", "user.name=Author", "-c", "user.email=author@example.invalid", "-c", "init.defaultBranch=main")
    done = subprocess.run(["git", *who, *arguments], cwd=folder, capture_output=True, text=True, check=True)  # noqa: S607 (the machine's own)
    return done.stdout


def commit(folder: Path) -> None:
    """Commit all that lies in *folder*."""
    git(folder, "add", "--all")
    git(folder, "commit", "--quiet", "--message", "A change")


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """Return a copy of the demonstration below the top of a git repository, committed."""
    folder = tmp_path / "work" / "bench"
    folder.mkdir(parents=True)
    shutil.copytree(ROOT / "procedures", folder / "procedures")
    shutil.copy(ROOT / "mkdocs.yml", folder)
    git(tmp_path / "work", "init", "--quiet")
    commit(folder)
    return folder


def change(shop: Path, path: str, before: str, after: str) -> None:
    """Change the first *before* in the file *path* of *shop* into *after*."""
    file = shop / "procedures" / path
    text = file.read_text(encoding="utf-8")
    assert before in text
    file.write_text(text.replace(before, after, 1), encoding="utf-8")


def loosen(shop: Path) -> None:
    """Raise a heat limit, drop a check and shorten a drying wait."""
    change(shop, "devices/godwit.yml", "part_of: main-board, heat_limit: 245 °C, joint_limit",
           "part_of: main-board, heat_limit: 260 °C, joint_limit")  # fmt: skip
    change(shop, PORT, MEASURE, "")
    change(shop, PORT, "wait: {for: 2 min, until: dry", "wait: {for: 80 s, until: dry")


def test_three_lines(shop: Path) -> None:
    """A raised heat limit, a dropped check and a shorter drying wait are three lines and 1."""
    loosen(shop)
    commit(shop)

    done = compare(shop, "HEAD~1")

    limit, wait, check = done.stdout.splitlines()
    assert 1 == done.returncode
    assert limit.startswith("procedures/devices/godwit.yml:18:84: looser limit: ")
    assert "what the body of charge-port bears is 260 °C; it was 245 °C (in godwit/clean-charge-port," in limit
    assert f"procedures/{PORT}:25:11: looser wait: steps-3: the wait until dry is 80 s; it was 2 min" == wait
    assert f"procedures/{PORT}:37:5: looser check: the check “resistance > 10 kΩ” is gone" in check
    assert "godwit/clean-charge-port: revision 4 as before; takes 19–29 min, took 20–30 min" in done.stderr


def test_revision_raised(shop: Path) -> None:
    """The same change with raised revisions is said and ends with 0; nothing at all is said of no change."""
    quiet = compare(shop, "HEAD")
    change(shop, PORT, "wait: {for: 2 min, until: dry", "wait: {for: 80 s, until: dry")
    change(shop, PORT, "revision: 4", "revision: 5")

    done = compare(shop, "HEAD")

    assert (0, "") == (quiet.returncode, quiet.stdout)
    assert (0, 1) == (done.returncode, len(done.stdout.splitlines()))
    assert "revision 5, was 4" in done.stderr


def test_json_and_markdown(shop: Path) -> None:
    """JSON has every change with its numbers; Markdown shows what authors wrote as it is."""
    loosen(shop)
    change(shop, "repairs/godwit/renew-case-seal.yml", "title: ", "title: '<b>|' #")
    change(shop, "repairs/godwit/renew-case-seal.yml", "status: approved", "status: draft")

    whole = json.loads(compare(shop, "HEAD", "--format", "json").stdout)
    page = markdown(compare(shop, "HEAD", "--format", "markdown").stdout, extensions=["tables"])

    wait = next(one for one in whole["changes"] if one["kind"] == "wait")
    assert {"kind", "way", "message", "path", "line", "column", "step", "before", "after", "procedures"} == set(wait)
    assert ("looser", "2 min", "80 s", ["godwit/clean-charge-port"]) == (
        wait["way"], wait["before"], wait["after"], wait["procedures"],
    )  # fmt: skip
    port = next(one for one in whole["procedures"] if one["procedure"] == "godwit/clean-charge-port")
    assert {"before": 4, "after": 4, "raised": False} == port["revision"]
    assert port["time"]["after"]["high"] < port["time"]["before"]["high"]
    assert "godwit/clean-charge-port" in whole["summary"]["unraised"]
    assert 2 == page.count("<table>")
    assert "is 80 s; it was 2 min" in page
    assert "<strong>Raise its revision.</strong>" in page


def test_work_tree_is_left_alone(shop: Path) -> None:
    """What is staged, changed and new stays as it is; what is not committed yet counts as it lies there."""
    loosen(shop)
    git(shop, "add", "--all")
    change(shop, PORT, "wait: {for: 4 min, until: cool}", "wait: {for: 3 min, until: cool}")
    before = git(shop, "status", "--porcelain=v2")
    index = (shop.parent / ".git" / "index").read_bytes()

    done = compare(shop, "main")

    assert "is 3 min; it was 4 min" in done.stdout
    assert before == git(shop, "status", "--porcelain=v2")
    assert index == (shop.parent / ".git" / "index").read_bytes()


def test_linked_file(shop: Path) -> None:
    """A file that is linked into the knowledge base is compared by what it leads to."""
    file = shop / "procedures" / PORT
    (shop.parent / "kept.yml").write_bytes(file.read_bytes())
    file.unlink()
    file.symlink_to("../../../../kept.yml")
    commit(shop.parent)
    text = (shop.parent / "kept.yml").read_text(encoding="utf-8")
    (shop.parent / "kept.yml").write_text(text.replace("at: 350 °C", "at: 360 °C"), encoding="utf-8")

    done = compare(shop, "HEAD")

    assert ["looser heat: tin: the heat on charge-port is 360 °C; it was 350 °C"] == [
        line.split(": ", 1)[1] for line in done.stdout.splitlines()
    ]


@pytest.mark.parametrize(
    ("revision", "why"),
    [
        ("no-such-branch", "git knows no no-such-branch here"),
        ("--", "git knows no -- here"),
        ("HEAD:procedures", "git knows no HEAD:procedures here"),
    ],
)
def test_unknown_revision(shop: Path, revision: str, why: str) -> None:
    """What git does not know is refused in one line."""
    done = compare(shop, "--", revision)

    assert (2, "") == (done.returncode, done.stdout)
    assert why in done.stderr


def test_no_repository(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Outside a repository, in one without a commit, and where the base was not there, one line says so."""
    shutil.rmtree(shop.parent / ".git")
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(shop.parent.parent))
    outside = compare(shop, "HEAD")
    git(shop.parent, "init", "--quiet")
    empty = compare(shop, "HEAD")
    (shop.parent / "other.txt").write_text("other\n", encoding="utf-8")
    git(shop.parent, "add", "other.txt")
    git(shop.parent, "commit", "--quiet", "--message", "Other")
    elsewhere = compare(shop, "HEAD")
    monkeypatch.setenv("PATH", str(shop))
    no_git = compare(shop, "HEAD")

    told = [done.stderr.strip() for done in (outside, empty, elsewhere, no_git)]
    assert [2, 2, 2, 2] == [done.returncode for done in (outside, empty, elsewhere, no_git)]
    assert [1, 1, 1, 1] == [len(text.splitlines()) for text in told]
    assert "is not in a git repository" in told[0]
    assert "git knows no HEAD here" in told[1]
    assert "There is no bench/mkdocs.yml in HEAD" in told[2]
    assert "git is not installed" in told[3]


def test_shallow_clone(shop: Path, tmp_path: Path) -> None:
    """A clone that does not reach back far enough says what to fetch."""
    loosen(shop)
    commit(shop)
    git(tmp_path, "clone", "--quiet", "--depth", "1", f"file://{shop.parent}", "shallow")

    done = compare(tmp_path / "shallow" / "bench", "HEAD~1")

    assert 2 == done.returncode
    assert 1 == len(done.stderr.strip().splitlines())
    assert "git fetch --unshallow" in done.stderr
