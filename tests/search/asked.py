"""
How often the search finds what was meant: the labelled questions, asked of a built site.

    python -m tests.search.asked SITE [--misses]

Half of the questions are kept out of all tuning. Which ones, their letters alone decide. `--misses` names those of the
other half that are not answered in the first three rows.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import yaml

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

HERE = Path(__file__).parent
LABELLED = ("asked.yml", "asked-again.yml", "asked-last.yml", "asked-by-others.yml")
FIRST_ROWS = 3


@dataclass(frozen=True, slots=True)
class Asked:
    """One question as it is typed, and the pages that answer it."""

    text: str
    kind: str
    pages: frozenset[str]

    @property
    def is_kept_out(self) -> bool:
        """Whether nothing may be tuned to this question: the first byte of its SHA-256 is odd."""
        return hashlib.sha256(self.text.encode()).digest()[0] % 2 == 1


@dataclass(frozen=True, slots=True)
class Answered:
    """A question, and which row answers it: 1 for the first, 0 for none."""

    asked: Asked
    row: int


def labelled(*names: str) -> tuple[Asked, ...]:
    """Return the labelled questions of the files with these *names*, of all where none is given, in their order."""
    files = [yaml.safe_load((HERE / name).read_text("utf-8")) for name in names or LABELLED]
    return tuple(
        Asked(one["ask"], kind, frozenset(f"{page}.html" for page in one["pages"]))
        for kinds in files
        for kind, several in kinds.items()
        for one in several
    )


def answer(site: Path, asked: Sequence[Asked]) -> tuple[Answered, ...]:
    """Ask the scripts and the index of the built *site*, in Node."""
    node = shutil.which("node") or "node"
    texts = json.dumps([one.text for one in asked])
    command = (node, str(HERE / "answers.mjs"), str(site))
    said = subprocess.run(command, input=texts, capture_output=True, text=True, check=True).stdout
    return tuple(Answered(one, _row(one, rows)) for one, rows in zip(asked, json.loads(said), strict=True))


def _row(asked: Asked, rows: Sequence[str]) -> int:
    """Return the first of *rows* that leads to a right page, wherever in that page."""
    return next((place for place, href in enumerate(rows, 1) if href.split("#")[0] in asked.pages), 0)


def first(answered: Iterable[Answered]) -> float:
    """Return the share of questions whose first row is right."""
    rows = [one.row for one in answered]
    return sum(row == 1 for row in rows) / len(rows)


def first_three(answered: Iterable[Answered]) -> float:
    """Return the share of questions with a right row among the first three."""
    rows = [one.row for one in answered]
    return sum(0 < row <= FIRST_ROWS for row in rows) / len(rows)


def table(answered: Sequence[Answered]) -> str:
    """Return the shares by kind of question, of both halves."""
    kinds = list(dict.fromkeys(one.asked.kind for one in answered))
    lines = [f"{'search, labelled questions':28}{'tuned on':>26}{'kept out':>26}",
             f"{'':28}{'count':>8}{'first':>9}{'in three':>9}{'count':>8}{'first':>9}{'in three':>9}"]  # fmt: skip
    for kind in (*kinds, "all"):
        of_kind = [one for one in answered if kind in {one.asked.kind, "all"}]
        halves = [[one for one in of_kind if one.asked.is_kept_out is kept_out] for kept_out in (False, True)]
        lines.append(f"{kind:28}" + "".join(_shares(half) for half in halves))
    return "\n".join(lines)


def _shares(half: Sequence[Answered]) -> str:
    return f"{len(half):>8}" + (f"{first(half):>9.1%}{first_three(half):>9.1%}" if half else f"{'–':>9}{'–':>9}")


def main() -> None:
    """Print the table, and what is missed in the half that may be looked at."""
    ask = argparse.ArgumentParser(prog="python -m tests.search.asked", description=__doc__.strip().splitlines()[0])
    ask.add_argument("site", type=Path, help="a folder with the built demonstration")
    ask.add_argument("--misses", action="store_true", help="name what is missed in the half that is tuned on")
    given = ask.parse_args()
    answered = answer(given.site, labelled())
    print(table(answered))  # noqa: T201 - this table is what was asked for
    if given.misses:
        for one in answered:
            if not one.asked.is_kept_out and not 0 < one.row <= FIRST_ROWS:
                print(f"{one.row or '-':>3}  {one.asked.text!r}: {', '.join(sorted(one.asked.pages))}")  # noqa: T201 - it is what was asked for


if __name__ == "__main__":
    main()
