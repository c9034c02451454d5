"""The state of the device and the bench as it stands before a step: what a person at the bench must know of it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from benchleaf.derive.held import little
from benchleaf.derive.passing import unseen
from benchleaf.dryrun.state import OUT
from benchleaf.dryrun.vapour import released, share_at
from benchleaf.dryrun.warmth import warmed_by
from benchleaf.model.action import Heat

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.state import Release, State, Touch
    from benchleaf.dryrun.trace import Moment
    from benchleaf.dryrun.vapour import Vapour
    from benchleaf.dryrun.world import World


class Lying(NamedTuple):
    """A liquid: on which part ("" where no step says), whether it burns, and for how long at the bad end, s."""

    part: str
    burns: bool
    seconds: float


class Warm(NamedTuple):
    """A part that was heated: how long it is not yet cool, and how long too hot for a hand, at the bad end, s."""

    part: str
    cool: float
    hand: float


class Neighbour(NamedTuple):
    """What lies beside the heat: the most that it reaches, at the bad end, and what it bears, °C; None: nobody says."""

    part: str
    reached: float
    limit: float | None


class Board(NamedTuple):
    """
    One moment of the trace, in the trade's terms and numbers; all ends of estimates are the bad ones.

    `packs` are the parts that are batteries, each with whether it is joined and why it must not be used again, if so.
    `power` is on, fed or off; `charged` the parts that may hold charge; `screws` and `parts` lie beside the device.
    `setting` are bonds that have not cured, with the seconds that are left. `air` is a share of the limit that the
    vapour at the bench comes nearest to.
    """

    packs: tuple[tuple[str, bool, str], ...]
    power: str
    charged: tuple[str, ...]
    screws: tuple[tuple[str, int], ...]
    parts: tuple[str, ...]
    wet: tuple[Lying, ...]
    hot: tuple[Warm, ...]
    beside: Neighbour | None
    setting: tuple[tuple[str, float], ...]
    air: float


class Boards:
    """Reads boards off the moments of one trace; what does not change from step to step is read once."""

    def __init__(self, world: World, nature: Nature) -> None:
        """Hold the device and the bench."""
        self._world, self._nature = world, nature
        # By the identity of what the answer holds on to.
        self._beside: dict[int, tuple[tuple[Touch, ...], Neighbour | None]] = {}
        self._gases: dict[int, tuple[tuple[Release, ...], tuple[Vapour, ...]]] = {}

    def before(self, moment: Moment) -> Board:
        """Return the board as it stands when the step of *moment* begins; a heating step shows what it will warm."""
        state, world = moment.before, self._world
        heats = isinstance(moment.step.action, Heat)
        return Board(
            packs=tuple(
                (own.part.text, name not in state.isolated, state.damaged.get(name, ""))
                for name, own in world.batteries.items()
            ),
            power="on" if state.power else "fed" if state.supplied else "off",
            charged=tuple(name for name in world.parts if name in state.charged) if state.charged else (),
            screws=out_in_the_tray(world, state),
            parts=beside_the_device(world, state),
            wet=tuple(self._lying(state)) if state.wet or state.fumes else (),
            hot=tuple(self._warm(state)),
            beside=self._neighbour(moment.after.touches if heats else state.touches) if heats or state.hot else None,
            setting=tuple(sorted(state.setting.items())),
            air=self._air(state) if state.releases else 0.0,
        )

    def _air(self, state: State) -> float:
        known = self._gases.get(id(state.releases))
        if known is None:
            known = self._gases[id(state.releases)] = (state.releases, released(self._nature, state.releases))
        return share_at(self._nature, known[1], state.low)

    def _lying(self, state: State) -> Iterator[Lying]:
        nature, world = self._nature, self._world
        for name, wet in state.wet.items():
            burns = nature.flammable(wet.liquid) or (name, wet.liquid) in state.fumes
            yield Lying(name, burns, nature.drying(world, name, wet) * wet.left)
        for (part, _), fume in unseen(state).items():
            yield Lying(part, burns=True, seconds=nature.drying(world, part, fume.wet) * fume.wet.left)

    def _warm(self, state: State) -> Iterator[Warm]:
        for name, hot in state.hot.items():
            yield Warm(name, max(0.0, hot.cool - hot.elapsed), max(0.0, hot.hand - hot.elapsed))

    def _neighbour(self, touches: tuple[Touch, ...]) -> Neighbour | None:
        """Return the neighbour of the last of *touches* that comes nearest to its limit, of those that are told of."""
        if not touches:
            return None
        known = self._beside.get(id(touches))
        if known is None:
            known = self._beside[id(touches)] = (touches, self._nearest(touches))
        return known[1]

    def _nearest(self, touches: tuple[Touch, ...]) -> Neighbour | None:
        found = []
        for beside in touches[-1].beside:
            one = warmed_by(self._world, self._nature, touches, beside)
            if little(one) is None:
                found.append(Neighbour(one.part, one.reached.high, one.limit))
        return min(found, key=_margin, default=None)


def _margin(one: Neighbour) -> float:
    return math.inf if one.limit is None else one.limit - one.reached


def out_in_the_tray(world: World, state: State) -> tuple[tuple[str, int], ...]:
    """Return the screws in the tray at *state*, by kind, in the order of the device's file."""
    if not state.tray:
        return ()
    order = dict.fromkeys([*world.fasteners, *state.tray])
    return tuple((name, state.tray[name]) for name in order if state.tray.get(name, 0) > 0)


def beside_the_device(world: World, state: State) -> tuple[str, ...]:
    """Return the parts that lie beside the device at *state*, each that left by itself, in the order of the file."""
    if not state.alone:
        return ()
    return tuple(name for name in world.parts if name in state.alone and state.away.get(name) == OUT)
