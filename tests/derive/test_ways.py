"""The graph of ways: whatever the dry run performed can be walked in it, with the boards that the states give."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import pytest

from benchleaf import build
from benchleaf.derive.board import Boards
from benchleaf.derive.ways import MOST_FAILED, TOO_OFTEN, Again, Elsewhere, Halt, Leave, Node, ways
from benchleaf.dryrun.performed import performed
from benchleaf.dryrun.vapour import at_the_bench
from benchleaf.library.substances import SUBSTANCES
from benchleaf.model.step import GoTo, Stop
from benchleaf.source.folder import scan
from tests.conftest import ROOT
from tests.dryrun.made import trace as made

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.derive.board import Board
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Moment, Route, Trace

HOUR = 3600.0
LOOK = "- {id: tin, do: Solder it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 3 s}}"
CHECK = "- {do: Look., check: {look: It holds., if_not: {repeat: tin, times: 2, then: {stop: It does not.}}}}"
TWICE = """\
- {id: tin, do: Solder it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 3 s}}
- {id: one, do: Look., check: {look: It holds., if_not: {repeat: tin, then: {stop: One.}}}}
- {id: two, do: Look., check: {look: It shines., if_not: {repeat: tin, then: {stop: Two.}}}}
- {id: three, do: Look., check: {look: It is whole., if_not: {repeat: tin, then: {stop: Three.}}}}
"""


@cache
def traces() -> tuple[Trace, ...]:
    """Return every trace of the demonstration."""
    return tuple(performed(build.read_base(scan(ROOT, "procedures"))))


def named(trace: Trace) -> str:
    """Return what a test of *trace* is called."""
    return f"{trace.procedure.device}-{trace.procedure.id}-{trace.world.variant}"


def straight(nodes: Sequence[Node]) -> Iterator[Node]:
    """Yield the nodes of the straight pass."""
    at: int | None = 0
    while at is not None:
        yield nodes[at]
        at = nodes[at].next


def says(board: Board, state: State, trace: Trace) -> list[str]:
    """Return where *board* does not say what is so at *state*, in words of its own."""
    world = trace.world
    ages = [state.low - one.at for one in state.releases if not SUBSTANCES[one.substance].is_water]
    recent = any(age < HOUR for age in ages)
    checks = {
        "packs": {part: joined for part, joined, _ in board.packs}
        == {own.part.text: name in state.joined(world.batteries) for name, own in world.batteries.items()},
        "power": (board.power == "off") == (not state.live) and (board.power == "on") == state.power,
        "screws": dict(board.screws) == {name: count for name, count in state.tray.items() if count > 0},
        "parts": set(board.parts) == {name for name in state.alone if state.away[name] == "out"},
        "wet": set(state.wet) <= {one.part for one in board.wet} <= {*state.wet, *(part for part, _ in state.fumes)},
        "burns": any(one.burns for one in board.wet) >= any(not fume.seen for fume in state.fumes.values()),
        "hot": {one.part: one.cool for one in board.hot}
        == {name: hot.cool - hot.elapsed for name, hot in state.hot.items()},
        "setting": dict(board.setting) == dict(state.setting),
        "charged": set(board.charged) == set(state.charged),
        "air": recent <= (board.air > 0) <= bool(ages),
    }
    return [name for name, holds in checks.items() if not holds]


def walked(nodes: Sequence[Node], moments: Sequence[Moment], failing: frozenset[int]) -> list[Node]:
    """Return the nodes that one meets who performs *moments* and finds the checks with the numbers *failing* failed."""
    found, at = [], 0
    for number in range(len(moments)):
        found.append(nodes[at])
        if number in failing:
            fail = nodes[at].fail
            assert isinstance(fail, Again | Elsewhere)
            at = fail.to
        else:
            following = nodes[at].next
            assert following is not None or number == len(moments) - 1
            at = following or 0
    return found


def path(trace: Trace, route: Route) -> tuple[list[Moment], frozenset[int]]:
    """Return what is performed on the way of *route*, and which of its checks fail with something performed after."""
    here = next(number for number, moment in enumerate(trace.straight) if moment is route.check)
    moments = [*trace.straight[: here + 1], *route.extra, *route.goes_on]
    again = [
        here + 1 + number for number, moment in enumerate(route.extra)
        if moment.step is route.check.step and route.end is None
    ]  # fmt: skip
    return moments, frozenset([here, *again[:-1]] if route.extra else [])


@pytest.mark.parametrize("trace", traces(), ids=named)
def test_straight_pass(trace: Trace) -> None:
    """The straight pass is met step by step, each board says what is so, and it ends with the trace."""
    met = list(straight(ways(trace)))

    assert [moment.step.id for moment in trace.straight] == [node.step for node in met]
    assert {} == {
        node.step: wrong
        for node, moment in zip(met, trace.straight, strict=True)
        if (wrong := says(node.board, moment.before, trace))
    }
    assert [(number, len(met)) for number in range(1, len(met) + 1)] == [(node.place, node.of) for node in met]
    assert dict(met[-1].screws) == {name: count for name, count in trace.end.tray.items() if count > 0}


@pytest.mark.parametrize("trace", traces(), ids=named)
def test_every_fail_route(trace: Trace) -> None:
    """Each fail route of the trace can be walked, with its boards, and ends as the trace ends."""
    nodes, boards = ways(trace), Boards(trace.world, trace.nature)
    tries: dict[int, tuple[list[Moment], frozenset[int]]] = {}
    for route in trace.routes:
        moments, failing = path(trace, route)
        if route.end is None:
            tries[id(route.check)] = moments[: -len(route.goes_on) or None], failing
        elif id(route.check) in tries:  # what follows when each try has failed
            moments, failing = tries[id(route.check)]
        met = walked(nodes, moments, failing)

        assert [moment.step.id for moment in moments] == [node.step for node in met]
        assert [boards.before(moment) for moment in moments] == [node.board for node in met]
        match route.end:
            case Stop(text=text):
                assert met[-1].fail == Halt(text)
            case GoTo(procedure=name) if not route.extra:
                assert met[-1].fail == Leave(name.text)
            case _:
                assert met[-1].next is None
                assert dict(met[-1].screws) == {
                    kind: count for kind, count in moments[-1].after.tray.items() if count > 0
                }


def test_the_demonstration_has_every_kind_of_way() -> None:
    """Stops, repeats, procedures that are left for and such as are performed on the spot are all among them."""
    kinds = {type(node.fail) for trace in traces() for node in ways(trace)}

    assert {Halt, Again, Leave, Elsewhere, type(None)} == kinds


def test_repeat_is_laid_out_as_often_as_it_may_be() -> None:
    """A check that may be repeated twice has two tries, each later in time, and then its stop."""
    nodes = ways(made(f"{LOOK}\n{CHECK}"))
    tries, at = [], next(number for number, node in enumerate(nodes) if node.fail and isinstance(node.fail, Again))
    while isinstance(fail := nodes[at].fail, Again):
        tries.append(nodes[fail.to])
        at = fail.to + 1

    assert ["tin", "tin"] == [node.step for node in tries]
    assert tries[0].place < tries[1].place
    assert nodes[at].fail == Halt("It does not.")


def test_more_heat_with_each_try() -> None:
    """A second touch finds the neighbour at least as warm as the first."""
    wader_near = LOOK.replace("for: 3 s", "for: 10 s, times: 5, pause: 2 s")
    nodes = ways(made(f"{wader_near}\n{CHECK}"))
    reached = [node.board.beside.reached for node in nodes if node.step == "tin" and node.board.beside]

    assert reached == sorted(reached)


def test_failures_are_performed_up_to_a_number() -> None:
    """Two checks may fail one after the other; where a third one does, the work stops."""
    nodes = ways(made(TWICE))
    ends = [node.fail for node in nodes if node.step in {"one", "two", "three"}]

    assert any(isinstance(end, Again) for end in ends)
    assert Halt(TOO_OFTEN) in ends
    assert 2 == MOST_FAILED


def test_air_falls_after_a_release() -> None:
    """The air of the bench is at most what the sheet says of the release, and falls from step to step."""
    brush = "- {do: Brush it., solvent: {material: isopropanol, volume: 0.5 mL, on: lamp, area: 2 cm²}}"
    wait = "- {do: Wait., wait: {for: 5 min}}"
    own = made(f"{brush}\n{wait}\n{wait}\n{wait}")
    said = next(at_the_bench(own.nature, own.straight)).of_limits
    shares = [node.board.air for node in straight(ways(own)) if node.board.air]

    assert len(shares) > 3
    assert said + 1e-9 >= shares[0]
    assert shares == sorted(shares, reverse=True)
    assert shares[-1] < shares[0] / 2


def test_no_state_is_kept() -> None:
    """A node holds names and numbers alone: states and steps stay where they were performed."""
    node = ways(made(LOOK))[0]

    assert isinstance(node.step, str)
    assert isinstance(node.procedure, str)
