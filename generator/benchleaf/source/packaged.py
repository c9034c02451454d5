"""What Benchleaf brings along: schemas, templates and the starter, from the installed package or from a checkout."""

from __future__ import annotations

from functools import cache
from pathlib import Path

STOP_PAGE = "stop-and-make-safe.md"
_HERE = Path(__file__).resolve().parent.parent


def _brought(packaged: str, checkout: str) -> Path:
    inside = _HERE / packaged
    return inside if inside.is_dir() else _HERE.parent.parent / checkout


def overrides() -> Path:
    """Return the folder of templates and assets."""
    return _brought("_site_overrides", "site_overrides")


def starter() -> Path:
    """Return the folder that `benchleaf init` copies."""
    return _HERE / "starter"


@cache
def schemas() -> dict[str, str]:
    """Return the text of each schema by its file name, sorted."""
    folder = _brought("_schema", "schema")
    return {path.name: path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.schema.json"))}


@cache
def schema_folder() -> Path:
    """Return the folder of schemas: `new` and `init` write its path into editors' settings."""
    return _brought("_schema", "schema")


@cache
def templates() -> dict[str, str]:
    """Return the text of each template of ours by its path below the templates' folder, sorted."""
    folder = overrides()
    return {
        path.relative_to(folder).as_posix(): path.read_text(encoding="utf-8") for path in sorted(folder.rglob("*.html"))
    }


@cache
def stop_and_make_safe() -> str:
    """Return the page that every site's foot leads to, as Markdown, for a knowledge base that has none of its own."""
    return (starter() / "procedures" / STOP_PAGE).read_text(encoding="utf-8")


@cache
def rule_texts() -> dict[str, str]:
    """Return the README of each rule's room by the rule's name, sorted."""
    rooms = _HERE / "checks" / "rules"
    return {
        path.parent.name.replace("_", "-"): path.read_text(encoding="utf-8")
        for path in sorted(rooms.glob("*/README.md"))
    }
