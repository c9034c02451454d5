"""Which files are asked about, and what must be performed to know all that is to be found in them."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from benchleaf.dryrun.performed import touched

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.source.folder import File


@dataclass(frozen=True, slots=True)
class Shard:
    """One of several parts of a knowledge base: which file belongs to which part, and the number of this one."""

    number: int
    count: int
    owners: Mapping[str, int] = field(repr=False)

    def has(self, path: str) -> bool:
        """Whether *path* belongs to this part; what is in no file that we know belongs to the first."""
        return self.owners.get(path, 1) == self.number


@dataclass(frozen=True, slots=True)
class Scope:
    """
    What is asked about: files below *paths* (all, where none are given), and of them those of the *shard*.

    Every file is read whatever is asked: names from elsewhere still count.
    """

    paths: tuple[str, ...] = ()
    shard: Shard | None = None

    @property
    def whole(self) -> bool:
        """Whether everything is asked about."""
        return not self.paths and self.shard is None

    def has(self, path: str) -> bool:
        """Whether what lies in the file *path* is asked about."""
        below = not self.paths or any(path == one or path.startswith(f"{one}/") for one in self.paths)
        return below and (self.shard is None or self.shard.has(path))

    def needs(self, base: KnowledgeBase, procedure: Procedure) -> bool:
        """Whether performing *procedure* may show something in a file that is asked about."""
        return self.whole or any(self.has(path) for path in touched(base, procedure))


EVERYTHING = Scope()
"""The scope of one who asks about the whole knowledge base."""


def shard(files: Iterable[File], number: int, count: int) -> Shard:
    """
    Return part *number* of *count* of *files*: a device stays together with its procedures and diagnoses.

    What a rule sees in the opening of a device it may see with any procedure that opens it, and each finding must be
    found whole and once. The heaviest device goes first, each to the part that has the least to perform so far.
    """
    together: dict[str, list[File]] = {}
    for file in files:
        together.setdefault(f"devices/{file.device}" if file.device else file.path, []).append(file)
    weights = {name: sum(file.kind == "procedure" for file in group) for name, group in together.items()}
    loads = dict.fromkeys(range(1, count + 1), 0)
    owners = {}
    for name in sorted(together, key=lambda name: (-weights[name], name)):
        lightest = min(loads, key=lambda part: (loads[part], part))
        loads[lightest] += weights[name]
        owners.update({file.path: lightest for file in together[name]})
    return Shard(number, count, owners)
