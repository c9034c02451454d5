"""A name for each finding that stays the same while lines move, so that CI systems know an old finding again."""

from __future__ import annotations

import hashlib
import re
from collections import Counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.findings import Finding

_LINE_END = re.compile(r"\r\n|\r|\n|\x85|\u2028|\u2029")
"""What ends a line for the reader of YAML, who counts the lines of a place."""


def fingerprints(findings: tuple[Finding, ...], texts: Mapping[str, bytes]) -> tuple[str, ...]:
    """
    Return a fingerprint for each of *findings*, which are in reading order and lie in *texts*.

    It is made from the file, the rule, the line as it is written and the token in it; of findings that have all of this
    in common, the first, second and so on. The message is left out: it may hold numbers that a change elsewhere moves.
    """
    lines: dict[str, list[str]] = {}
    seen: Counter[str] = Counter()
    made = []
    for finding in findings:
        place = finding.place
        if place.path not in lines:
            text = texts.get(place.path, b"").decode("utf-8-sig", errors="replace")
            lines[place.path] = _LINE_END.split(text)
        line = lines[place.path][place.line - 1] if place.line <= len(lines[place.path]) else ""
        known = "\0".join((place.path, finding.rule, line.strip(), line[place.column - 1 : place.end - 1]))
        made.append(hashlib.sha256(f"{known}\0{seen[known]}".encode("utf-8", "surrogatepass")).hexdigest())
        seen[known] += 1
    return tuple(made)
