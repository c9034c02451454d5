"""A way into a device and its undo is clean, and each thing that is forgotten of it is found once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hypothesis import given
from hypothesis import strategies as st

from benchleaf import build
from tests.properties.invented import folder
from tests.properties.profile import examples
from tests.properties.walks import Files, Walk, as_levels, as_work, moves, walks, without

if TYPE_CHECKING:
    from benchleaf.findings import Finding


def found(files: Files) -> tuple[Finding, ...]:
    """Return what is found in *files*."""
    return build.check(folder(files)).findings


@st.composite
def written(draw: st.DrawFn) -> Files:
    """Return a walk as a knowledge base: as opening and closing of two levels, or as steps."""
    walk: Walk = draw(walks())
    cut = draw(st.integers(-1, len(walk.inwards)))
    return as_work(walk) if cut < 0 else as_levels(walk, cut)


@examples(60)
@given(written())
def test_walk_and_undo(files: Files) -> None:
    """Whatever is taken out in a legal order and put back in the reverse gives no finding."""
    assert () == found(files)


@examples(120)
@given(written(), st.data())
def test_forgotten_step(files: Files, data: st.DataObject) -> None:
    """One step forgotten on the way in or out gives exactly one finding."""
    number = data.draw(st.integers(0, len(moves(files)) - 1))

    faults = found(without(files, number))

    assert 1 == len(faults), faults


@examples(20)
@given(walks())
def test_forgotten_battery(walk: Walk) -> None:
    """A battery that nobody isolates, and one that nobody joins again, is found."""
    isolated, joined = as_work(walk), as_work(walk)
    level = "devices/dotterel.yml"
    isolated[level]["access"]["open"]["opening"].pop(3)
    joined[level]["access"]["open"]["closing"].pop(0)

    assert found(isolated)
    assert found(joined)
