"""The knowledge base on the disk: which files there are, in a fixed order. The only reader of the disk."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from benchleaf.findings import Refused

SINGLE = ("shop", "symptoms", "tools", "materials", "counts")
SETTINGS = "mkdocs.yml"
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
    """A knowledge base as bytes: where it lies, its YAML files, what else lies there, the house's notes."""

    root: Path
    docs: str
    files: tuple[File, ...]
    others: frozenset[str]
    notes: str = ""

    def docs_path(self, path: str) -> str:
        """Return *path*, given below the docs folder, as findings show it."""
        return f"{self.docs}/{path}"


def find_root(start: Path) -> Path:
    """Return the nearest folder at or above *start* that holds mkdocs.yml; refuses where there is none."""
    if not start.exists():
        raise Refused(f"There is no {start}")
    start = start.resolve()
    for folder in (start, *start.parents) if start.is_dir() else start.parents:
        if (folder / SETTINGS).is_file():
            return folder
    raise Refused(f"There is no {SETTINGS} at or above {start}: `benchleaf init DIR` makes a knowledge base")


def docs_folder(root: Path) -> str:
    """Return the name of the docs folder that the settings in *root* give; MkDocs calls it `docs` where they do not."""
    match = _DOCS.search((root / SETTINGS).read_text(encoding="utf-8", errors="replace"))
    return PurePosixPath(match.group(1)).as_posix() if match else "docs"


def scan(root: Path, docs: str) -> Folder:
    """Read the knowledge base below *root*/*docs*; refuses where there is none."""
    top = root / docs
    if not top.is_dir():
        raise Refused(f"There is no folder {docs} beside {root / SETTINGS}: it holds the procedures")
    files: list[File] = []
    others: list[str] = []
    for path in sorted(_below(top), key=lambda path: path.relative_to(top).parts):
        inside = path.relative_to(top).as_posix()
        if path.suffix in {".yml", ".yaml"}:
            kind, device, name = identify(inside)
            files.append(File(f"{docs}/{inside}", kind, device, name, path.read_bytes()))
        else:
            others.append(inside)
    if not files:
        raise Refused(f"There is no YAML file in {top}: `benchleaf init DIR` makes a knowledge base")
    notes = top / "index.md"
    return Folder(root, docs, tuple(files), frozenset(others),
                  notes.read_text(encoding="utf-8", errors="replace") if notes.is_file() else "")  # fmt: skip


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


def _below(folder: Path) -> list[Path]:
    """Return each file below *folder*; what begins with a dot belongs to tools and is passed over."""
    found: list[Path] = []
    for path in folder.iterdir():
        if path.name.startswith("."):
            continue
        if path.is_dir():
            found.extend(_below(path))
        elif path.is_file():
            found.append(path)
    return found
