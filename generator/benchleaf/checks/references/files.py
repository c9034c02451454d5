"""Files that stand where none is read: a rule, a limit or a caution in them would be silently lost."""

from __future__ import annotations

from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from benchleaf.checks.names import listed, nearest
from benchleaf.checks.rule import Hit
from benchleaf.source.folder import SINGLE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase

_FOLDERS = {"devices": 1, "repairs": 2, "diagnosis": 2}
"""The folders that are read, each with how many names stand below it."""
_READ = (
    "What is read: devices/<device>.yml, repairs/<device>/<procedure>.yml, diagnosis/<device>/<symptom>.yml, "
    f"{listed([f'{name}.yml' for name in SINGLE])}."
)


def misplaced(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each file that stands where none is read, with the nearest place where one is."""
    docs = _docs(base)
    for path, place in base.misplaced:
        inside = path.removeprefix(docs) if docs else PurePosixPath(path).relative_to(path.split("/", 1)[0]).as_posix()
        near = _nearest_place(inside)
        yield Hit(
            place,
            "No file is read at this place: what it says would reach nobody",
            f"Did you mean {near}? {_READ}" if near else _READ,
        )


def _docs(base: KnowledgeBase) -> str:
    """Return the docs folder, with its stroke, as far as a file that is read shows it."""
    for device in base.devices.values():
        return device.path.removesuffix(f"devices/{device.id}.yml")
    for procedure in base.procedures.values():
        return procedure.path.removesuffix(f"repairs/{procedure.device}/{procedure.id}.yml")
    return ""


def _nearest_place(inside: str) -> str | None:
    path = PurePosixPath(inside)
    *folders, name = path.with_suffix("").parts
    if not folders:
        near = nearest(name, SINGLE)
        return f"{near}.yml" if near else None
    top = nearest(folders[0], _FOLDERS)
    if top is None or len(folders) != _FOLDERS[top]:
        return None
    return "/".join((top, *folders[1:], f"{name}.yml"))
