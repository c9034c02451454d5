"""A comparison as lines that editors and terminals make clickable, and the sentences that close it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.compare.change import Way
from benchleaf.units.show import interval

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.derive.compare.change import Change
    from benchleaf.derive.compare.comparison import Compared, Comparison


def render(comparison: Comparison) -> str:
    """Return `path:line:column: way kind: message` for each change."""
    return "".join(f"{line(change)}\n" for change in comparison.changes)


def line(change: Change) -> str:
    """Return one change; where it stands outside the procedures that it bears on, they are named."""
    own = any(change.place.path.endswith(f"/repairs/{name}.yml") for name in change.procedures)
    bears = f" (in {', '.join(change.procedures)})" if change.procedures and not own else ""
    return f"{change.place}: {change.way} {change.kind}: {change.message}{bears}"


def head(one: Compared) -> str:
    """Return what is to be said of a procedure as a whole: revision, time, variants."""
    return f"{one.name}: {'; '.join(_facts(one))}"


def _facts(one: Compared) -> Iterator[str]:
    if one.revision is None:
        yield "nothing of it can be compared"
    elif one.was_revision is None:
        yield f"new, revision {one.revision}"
    elif one.revision == one.was_revision:
        yield f"revision {one.revision} as before"
    else:
        yield f"revision {one.revision}, was {one.was_revision}"
    if one.time:
        now, was = (interval(time.low, time.high) if time else "" for time in (one.time, one.was_time))
        yield f"takes {now}" + (f", took {was}" if was and was != now else "")
    if one.variants and one.was_variants and one.variants != one.was_variants:
        yield f"for {', '.join(one.variants)}, was for {', '.join(one.was_variants)}"


def sentence(comparison: Comparison) -> str:
    """Return in one sentence what the change did."""
    if not comparison.changes:
        return f"Nothing that safety hangs on differs from {comparison.against}"
    counts = [(len(comparison.of(way)), str(way)) for way in Way]
    told = ", ".join(f"{number} {way}" for number, way in counts if number)
    changes = f"{len(comparison.changes)} changes" if len(comparison.changes) > 1 else "1 change"
    unraised = [one.name for one in comparison.unraised]
    if not unraised:
        loosened = any(one.loosened for one in comparison.procedures)
        raised = "; safety was loosened and the revisions say so" if loosened else ""
        return f"{changes} since {comparison.against}: {told}{raised}"
    which = f"{unraised[0]}, whose revision was" if len(unraised) == 1 else (
        f"{len(unraised)} procedures whose revisions were")  # fmt: skip
    return f"{changes} since {comparison.against}: {told}; safety was loosened in {which} not raised"
