"""Where in a file something can go wrong: its steps, and the names and numbers in them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tests.mutants.tree import Pointer, Tree, value

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.mutants.book import Book

PHASES = {"opening": 0, "steps": 1, "closing": 2, "prove": 3}
ACTIONS = (
    "power", "supply", "unplug", "plug", "unscrew", "screw", "remove", "fit", "replace", "release", "bond", "heat",
    "desolder", "solder", "solvent", "bath", "work", "discharge", "store", "wait",
)  # fmt: skip
HEATS = ("heat", "desolder", "solder")
_NAMED = {"part", "bond", "on", "into"}
_LISTED = {"tool", "with", "material"}


@dataclass(frozen=True)
class Site:
    """A step of a file: the list that it stands in, its number there from 0, and what it says."""

    path: str
    steps: Pointer
    number: int
    step: Tree

    @property
    def pointer(self) -> Pointer:
        """The way to the step."""
        return (*self.steps, self.number)

    @property
    def action(self) -> str:
        """The name of its action, or "" where it has none."""
        return next((name for name in ACTIONS if name in self.step), "")

    @property
    def says(self) -> str:
        """Its instruction."""
        return str(self.step["do"])

    @property
    def phase(self) -> str:
        """Whether it stands in an opening, the steps, a closing or the proof."""
        return str(self.steps[-1])


def procedures(book: Book) -> Iterator[tuple[str, Tree]]:
    """Yield the procedures in use, as paths and trees."""
    for path, tree in book.trees.items():
        if book.files[path].kind == "procedure" and tree.get("status") != "withdrawn":
            yield path, tree


def devices(book: Book) -> Iterator[tuple[str, Tree]]:
    """Yield the devices, as paths and trees."""
    for path, tree in book.trees.items():
        if book.files[path].kind == "device":
            yield path, tree


def lists(tree: Tree) -> Iterator[Pointer]:
    """Yield the way to each list of steps."""
    for level, access in tree.get("access", {}).items() if isinstance(tree.get("access"), dict) else ():
        yield from (("access", level, phase) for phase in ("opening", "closing") if phase in access)
    yield from ((phase,) for phase in ("steps", "prove") if phase in tree)


def sites(book: Book) -> Iterator[Site]:
    """Yield every step of every procedure in use and of every level of every device."""
    for path, tree in (*devices(book), *procedures(book)):
        for pointer in lists(tree):
            for number, step in enumerate(value(tree, pointer)):
                yield Site(path, pointer, number, step)


def list_of(pointer: Pointer) -> Pointer:
    """Return the way to the list of steps that *pointer* leads into, or () where it leads into none."""
    for length in (1, 3):
        if len(pointer) > length and pointer[length - 1] in PHASES and isinstance(pointer[length], int):
            return pointer[:length]
    return ()


def things_in(step: Tree) -> frozenset[str]:
    """Return the parts, connectors, screws and bonds that *step* acts on; a switch and a supply go by that name."""
    found: set[str] = set()
    for name in ACTIONS:
        what = step.get(name)
        if name in {"power", "supply"} and what is not None:
            found.add(name)
        elif isinstance(what, str):
            found.add(what)
        elif isinstance(what, dict):
            found.update(what if name in {"screw", "unscrew"} else {what[key] for key in what if key in _NAMED})
    return frozenset(found)


def listed_in(step: Tree) -> frozenset[str]:
    """Return the tools and materials that *step* names."""
    found = {*step.get("use", ()), *step.get("apply", {})}
    for name in (*ACTIONS, "check"):
        what = step.get(name)
        if isinstance(what, dict):
            found.update(str(what[key]) for key in what if key in _LISTED)
    return frozenset(found)
