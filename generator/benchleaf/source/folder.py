"""The knowledge base on the disk: which files there are, in a fixed order. The only reader of the disk."""

from __future__ import annotations

import os
import re
import unicodedata
from dataclasses import dataclass, field, replace
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

from benchleaf.findings import Refused

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

SINGLE = ("shop", "symptoms", "tools", "materials", "counts")
SETTINGS = "mkdocs.yml"
YAML = frozenset({".yml", ".yaml"})
"""How the names of files end that are read, and never published."""
_DOCS = re.compile(r"^docs_dir:[ \t]*[\"']?([^\"'#\n]+?)[\"']?[ \t]*(?:#.*)?$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class File:
    """
    One YAML file of a knowledge base.

    `path` is relative to the folder of mkdocs.yml, with `/`. `kind` is shop, symptoms, tools, materials, counts,
    device, procedure, diagnosis, or "" for a file that stands where none is read. `device` and `id` come from the path.
    """

    path: str
    kind: str
    device: str
    id: str
    data: bytes


@dataclass(frozen=True, slots=True)
class Folder:
    """A knowledge base as bytes: where it lies, its YAML files, what else lies there, the house's notes and pages."""

    root: Path
    docs: str
    files: tuple[File, ...]
    others: frozenset[str]
    notes: str = ""
    house: Mapping[str, str] = field(default_factory=dict)  # the text of each other Markdown page, by path below docs

    def docs_path(self, path: str) -> str:
        """Return *path*, given below the docs folder, as findings show it."""
        return f"{self.docs}/{path}"


def find_root(start: Path) -> Path:
    """Return the nearest folder at or above *start* that holds mkdocs.yml; refuses where there is none."""
    if not start.exists():
        raise Refused(f"There is no {start}")
    # Not yet resolved: a file that is linked into a knowledge base belongs there, wherever it really lies.
    start = Path(os.path.abspath(start))  # noqa: PTH100  (Path.absolute leaves `..` in)
    for folder in (start, *start.parents) if start.is_dir() else start.parents:
        if (folder / SETTINGS).is_file():
            return folder.resolve()
    raise Refused(f"There is no {SETTINGS} at or above {start}: `benchleaf init DIR` makes a knowledge base")


def docs_folder(root: Path) -> str:
    """Return the name of the docs folder that the settings in *root* give; MkDocs calls it `docs` where they do not."""
    return docs_name(root, Path(docs_written(_bytes(root / SETTINGS))))


def docs_written(settings: bytes) -> str:
    """Return the docs folder as the *settings* write it; MkDocs calls it `docs` where they do not."""
    match = _DOCS.search(settings.decode("utf-8", errors="replace"))
    return match.group(1) if match else "docs"


def docs_name(root: Path, docs: Path) -> str:
    """Return the path of the docs folder from *root*, with `/`, as findings show it."""
    return Path(os.path.relpath(root / docs, root)).as_posix()


def scan(root: Path, docs: str) -> Folder:
    """Read the knowledge base below *root*/*docs*; refuses where there is none."""
    top = root / docs
    if not top.is_dir():
        raise Refused(f"There is no folder {docs} beside {root / SETTINGS}: it holds the procedures")
    files: list[File] = []
    others: list[str] = []
    for path in sorted(_below(top), key=lambda path: path.relative_to(top).parts):
        inside = path.relative_to(top).as_posix()
        if path.suffix.lower() in YAML:
            kind, device, name = identify(inside)
            files.append(File(f"{docs}/{inside}", kind, device, name, _bytes(path)))
        else:
            others.append(inside)
    if not files:
        raise Refused(f"There is no YAML file in {top}: `benchleaf init DIR` makes a knowledge base")
    house = {name: _bytes(top / name).decode("utf-8", errors="replace") for name in others if name.endswith(".md")}
    notes = house.pop("index.md", "")
    return Folder(root, docs, tuple(files), frozenset(others), notes, house)


def placed(folder: Folder, path: str, data: bytes) -> Folder:
    """Return *folder* as if its file *path*, as findings show it, held *data*; refuses where no YAML file is read."""
    inside = PurePosixPath(path.removeprefix(f"{folder.docs}/"))
    hidden = any(part.startswith(".") for part in inside.parts)
    if not path.startswith(f"{folder.docs}/") or inside.suffix.lower() not in YAML or hidden:
        raise Refused(f"{path} is no YAML file below {folder.docs}: nothing is read there")
    there = File(path, *identify(inside.as_posix()), data)
    files = (*(file for file in folder.files if file.path != path), there)
    return replace(folder, files=tuple(sorted(files, key=lambda file: PurePosixPath(file.path).parts)))


def from_checkout(root: Path) -> str:
    """Return the path of *root* from the top of its checkout, with `/`; nothing where it is the top or in none."""
    top = next((above for above in (root, *root.parents) if (above / ".git").exists()), root)
    return "" if top == root else root.relative_to(top).as_posix()


def identify(path: str) -> tuple[str, str, str]:
    """Return kind, device and id that *path*, below the docs folder, gives a file; the kind is "" where none fits."""
    parts = PurePosixPath(path).with_suffix("").parts
    if path.endswith(".yml"):
        match parts:
            case (name,) if name in SINGLE:
                return name, "", name
            case ("devices", name):
                return "device", name, name
            case ("repairs", device, name):
                return "procedure", device, name
            case ("diagnosis", device, name):
                return "diagnosis", device, name
    return "", "", parts[-1]


def _below(folder: Path, above: frozenset[Path] = frozenset()) -> Iterator[Path]:
    """Yield each file below *folder*; what begins with a dot belongs to tools and is passed over."""
    whole = folder.resolve()
    if whole in above:
        raise Refused(f"{_shown(folder)} is a link to a folder above it, and would be read without end: take it out")
    try:
        inside = list(folder.iterdir())
    except OSError as error:
        raise Refused(f"{_shown(folder)} cannot be read: {error.strerror}") from error
    for path in inside:
        if path.name.startswith("."):
            continue
        if any(unicodedata.category(sign) in {"Cc", "Cs"} for sign in path.name):
            raise Refused(f"The name of {_shown(path)} holds what is no text in UTF-8: give it another")
        if path.is_dir():
            yield from _below(path, above | {whole})
        elif path.is_file():
            yield path
        else:
            raise Refused(f"{_shown(path)} is neither a file nor a folder, or a link that leads nowhere: take it out")


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise Refused(f"{_shown(path)} cannot be read: {error.strerror}") from error


def _shown(path: Path) -> str:
    # A name may hold anything but a slash: what cannot be printed is shown as its code.
    return "".join(sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in str(path))
