"""How hot it gets beside what a step heats: which neighbours, between what, and the board over the distance."""

from __future__ import annotations

from itertools import pairwise

import pytest

from benchleaf.derive.heated import Heated, heated
from benchleaf.dryrun.warmth import warmed
from tests import make
from tests.dryrun.made import trace

NEAR = "near: {battery: 60 mm}"
IRON = "- {do: Solder it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 3 s, times: 9, pause: 4 s}}"
MAT = "- {do: Warm it., heat: {tool: heat-mat, at: 65 °C, for: 5 min, on: lens}}"


def only(steps: str, near: str = NEAR, lens: str = "near: {battery: 40 mm}") -> Heated:
    """Return the one heating step of *steps*, with what is said to be near the socket and the lens."""
    wader = make.WADER.replace(NEAR, near).replace("near: {battery: 40 mm}", lens)
    [(one, variants)] = heated([trace(steps, wader=wader)])

    assert () == variants
    return one


def test_neighbours_in_order_of_distance() -> None:
    """The nearest neighbour comes first, each with the way heat takes, its limit and its distance."""
    one = only(IRON, "near: {battery: 60 mm, lamp: {distance: 15 mm, via: air}, lens: {via: touching}}")

    assert [("lens", "touching", 0.0, 90.0), ("lamp", "air", 0.015, 85.0), ("battery", "board", 0.06, 60.0)] == [
        (near.part, near.via, near.distance, near.limit) for near in one.neighbours
    ]


def test_a_neighbour_gets_what_the_dry_run_says() -> None:
    """From low to high is what the dry run found, to the last digit."""
    done = trace(IRON, wader=make.WADER.replace(NEAR, "near: {lamp: 20 mm}"))
    [(one, _)] = heated([done])
    [(_, found)] = warmed(done)

    assert (found.reached.low, found.reached.high) == (one.neighbours[0].low, one.neighbours[0].high)
    assert not one.neighbours[0].bounded


def test_a_far_pack_has_a_bound() -> None:
    """A pack that plainly keeps within its limit has a bound as its high end, which nothing finer passes."""
    done = trace(IRON)
    [(one, _)] = heated([done])
    [(_, found)] = warmed(done)
    [pack] = one.neighbours

    assert pack.bounded
    assert pack.low == 21.0
    assert found.worst <= pack.high <= 60.0


def test_a_near_pack_has_its_range() -> None:
    """A pack that a bound does not clear has the range of the estimate."""
    [pack] = only(IRON, "near: {battery: 30 mm}").neighbours

    assert not pack.bounded
    assert 21.0 < pack.low < pack.high


def test_the_board_over_the_distance() -> None:
    """The board gets cooler with the distance, is looked at where its neighbours are, and 10 mm beyond the farthest."""
    one = only(IRON, "near: {lamp: 12 mm, battery: 60 mm}")
    distances = [distance for distance, _ in one.board]

    assert all(near[1] > far[1] > 21.0 for near, far in pairwise(one.board))
    assert {0.012, 0.06} <= set(distances)
    assert distances == sorted(distances)
    assert pytest.approx(0.07) == one.reach


def test_the_board_stands_above_what_lies_on_it() -> None:
    """No neighbour along the board gets hotter than the board there."""
    one = only(IRON, "near: {lamp: 12 mm, battery: 60 mm}")
    board = dict(one.board)

    assert all(near.high <= board[near.distance] for near in one.neighbours)


def test_all_touch() -> None:
    """Where all that is near touches, the board is shown as far as 60 mm; under a mat there is none to show."""
    iron, mat = only(IRON, "near: {battery: {via: other-side}}"), only(MAT, lens="near: {battery: {via: touching}}")

    assert (0.06, 0.06) == (iron.reach, iron.board[-1][0])
    assert () == mat.board


def test_nothing_beside() -> None:
    """A step that heats where nothing is near has no picture."""
    assert () == heated([trace(IRON, wader=make.WADER.replace(NEAR, "near: {}"))])


def test_variants_that_differ() -> None:
    """Where variants go otherwise, each has its own, and says whose it is."""
    wader = make.WADER.replace(NEAR, "near: {battery: 60 mm, buzzer: 30 mm}")

    found = heated([trace(IRON, wader=wader, variant=name) for name in ("w1", "w2")])

    assert [(("w1",), 1), (("w2",), 2)] == [(variants, len(one.neighbours)) for one, variants in found]
