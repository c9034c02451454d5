"""
Whether the bench page loses anything: a browser is killed again and again while steps are being done.

    python -m tests.durability [--kills 100] [--seed 1]

Each kill is a SIGKILL of the browser with all its processes at a random moment. After each start every step that the
page had shown as saved must be in the browser's database. It is not a cut of power: the system's own memory survives.
"""

from __future__ import annotations

import argparse
import shutil
import sys
import tempfile
from pathlib import Path
from random import Random

from playwright.sync_api import sync_playwright

from tests.browser.conftest import ARGUMENTS
from tests.conftest import COMMAND, ROOT, run, tool
from tests.durability.killing import Home, rounds


def main() -> int:
    """Kill, compare, and print one line: 0 when nothing was lost, 1 otherwise."""
    ask = argparse.ArgumentParser(prog="python -m tests.durability", description=__doc__.strip().splitlines()[0])
    ask.add_argument("--kills", type=int, default=100, help="how often the browser is killed")
    ask.add_argument("--seed", type=int, default=1, help="of the moments at which it is killed")
    asked = ask.parse_args()
    with (
        tempfile.TemporaryDirectory(prefix="durability-", ignore_cleanup_errors=True) as name,
        sync_playwright() as with_,
    ):
        address = largest(_built(Path(name))).as_uri()
        home = Home(with_.chromium, [tool("chromium", "chromium"), *ARGUMENTS], Path(name) / "profile", address)
        tally = rounds(home, asked.kills, Random(asked.seed))  # noqa: S311 - moments, not secrets
    for line in tally.lost:
        print(line)  # noqa: T201 - this is what the command is for
    print(f"{tally.kills} kills, {tally.steps} steps shown as saved, {len(tally.lost)} times one was missing")  # noqa: T201 - it is what was asked for
    return 1 if tally.lost else 0


def largest(site: Path) -> Path:
    """Return the bench page of *site* with the most in it."""
    return max(site.glob("bench/*/*.html"), key=lambda path: (path.stat().st_size, path))


def _built(folder: Path) -> Path:
    shutil.copy(ROOT / "mkdocs.yml", folder)
    shutil.copytree(ROOT / "procedures", folder / "procedures")
    said = run(COMMAND, "build", cwd=folder)
    if said.returncode:
        sys.exit(said.stdout + said.stderr)
    return folder / "site"


if __name__ == "__main__":
    sys.exit(main())
