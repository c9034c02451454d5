"""The survivors that are known, each with the reason why nothing sees it."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from tests.mutants.tree import parsed

if TYPE_CHECKING:
    from collections.abc import Mapping

FILE = Path(__file__).with_name("survivors.yml")


@cache
def survivors() -> Mapping[str, str]:
    """Return the reason for each known survivor, by its key."""
    listed = parsed(FILE.read_bytes(), FILE.name)
    return {str(key): str(reason) for reason, keys in listed.items() for key in keys}
