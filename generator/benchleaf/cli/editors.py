"""What `new` and `init` lay beside a knowledge base for editors: the schemas, and which fits which file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.begin.editor import SETTINGS, mapping
from benchleaf.source import packaged

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


def tell_editors(root: Path, docs: str) -> Iterator[str]:
    """
    Lay the schemas and the mapping beside the settings in *root*; yield in a line what was done, or must be.

    The schemas are ours: those of an earlier version are brought up to date. A mapping that is there may hold what
    others wrote, and is left as it is.
    """
    folder = root / "schema"
    ours = packaged.schemas()
    if folder.resolve() != packaged.schema_folder().resolve():
        old = [name for name, text in ours.items() if not _holds(folder / name, text)]
        folder.mkdir(exist_ok=True)
        for name in old:
            (folder / name).write_text(ours[name], encoding="utf-8")
        if old:
            yield "schema/ holds what editors go by: complete, explain and check while you write."
    settings = root / SETTINGS
    if not settings.exists():
        settings.parent.mkdir(exist_ok=True)
        settings.write_text(mapping(docs), encoding="utf-8")
        yield f"{SETTINGS} tells an editor which schema fits which file."


def _holds(file: Path, text: str) -> bool:
    return file.is_file() and file.read_text(encoding="utf-8", errors="replace") == text
