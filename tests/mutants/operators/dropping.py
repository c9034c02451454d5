"""A step is forgotten: the hand was faster than the pen."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from tests.mutants.fault import Expected, Mutant, Operator, Where
from tests.mutants.hazards import facts
from tests.mutants.proofs import check_matters, pairs
from tests.mutants.sites import HEATS, Site, listed_in, sites, things_in
from tests.mutants.tree import drop, value

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from benchleaf.dryrun.trace import Trace
    from tests.mutants.book import Book
    from tests.mutants.case import Case

LEDGER = Where.PARTNER | Where.LATER
EVERYWHERE = Where.LATER | Where.BEFORE | Where.HEAD

NO_WORSE = "nothing that a later step meets is worse: another step does the same, or does it long enough"
SAME = "the next step does what this one did: all later ones meet the very state that they met before"
RENEWED = "the part is renewed: the step that puts the new one in takes the old one out"
UNDONE = "the repair is not done and nothing is worse: the proof, or the next hand, finds it undone"
WORDS = "a step of words alone: no action and no check, so only the reader's text is shorter"


def no_worse(case: Case) -> str:
    """Return why a dropped action hurts nobody: no hazard is new, and nothing is worse at the end."""
    return "" if case.worse else NO_WORSE


def _taken_out(case: Case) -> str:
    """Return why nothing is missing where something is not taken out first: what is renewed takes the old one out."""
    here = case.mutant.at
    gone, later = value(case.book.trees[case.mutant.path], here), value(case.changed.tree, here[:-1])[here[-1] :]
    if "remove" in gone and any(step.get("replace") == gone["remove"] for step in later):
        return RENEWED
    return SAME if _same(case) else ""


def _same(case: Case) -> bool:
    """Whether all steps but the next one, and the end, meet the states that they met before."""
    for key, trace in case.performed.items():
        was = case.was.get(key)
        if was is None:
            return False
        rest = len(trace.straight) - _first_change(trace, was) - 1
        if _last(trace, rest) != _last(was, rest):
            return False
    return True


def _last(trace: Trace, count: int) -> list[object]:
    moments = trace.straight[len(trace.straight) - max(count, 0) :]
    return [*(facts(moment.before) for moment in moments), facts(trace.end)]


def _first_change(trace: Trace, was: Trace) -> int:
    """Return the number of the first moment at which another instruction stands than stood there."""
    pairs = zip(trace.straight, was.straight, strict=False)
    return next((at for at, (one, other) in enumerate(pairs) if one.step.do != other.step.do), len(trace.straight))


def _arrives(case: Case) -> dict[str, str]:
    arrives = case.book.trees[case.mutant.path].get("arrives", {})
    return arrives if isinstance(arrives, dict) else {}


def _liquid(case: Case) -> str:
    """Return why it is no danger that a liquid is not put on: unless it should have carried something away."""
    dirty = _arrives(case).get("liquid", "none") != "none"
    return "" if dirty or case.worse else UNDONE


def _set_aside(case: Case) -> str:
    """Return why a battery may stay on the bench: where it is sound and nothing is heated beside it."""
    arrives = _arrives(case)
    hurt = arrives.get("liquid", "none") != "none" or arrives.get("battery") == "swollen"
    return "" if hurt or case.worse else NO_WORSE


def _handled(case: Case) -> str:
    """Return why handling that changes no state is no loss: unless it covers broken glass, or pairs a new part."""
    step = value(case.book.trees[case.mutant.path], case.mutant.at)
    covers = step["work"].get("kind") == "mask" and _arrives(case).get("glass") == "broken"
    return "" if covers or pairs(case, step) else NO_WORSE


def _words(case: Case) -> str:
    del case
    return WORDS


def _dropped(book: Book, wanted: Callable[[Site], bool]) -> Iterator[Mutant]:
    """Yield each step that is *wanted*, left out."""
    for site in sites(book):
        if wanted(site):
            yield Mutant(
                path=site.path,
                at=site.pointer,
                says=site.says,
                what=f"'{site.says}' left out",
                change=partial(drop, pointer=site.pointer),
                after=site.pointer,
                things=things_in(site.step),
                listed=listed_in(site.step),
            )


def _operator(
    name: str,
    why: str,
    wanted: Callable[[Site], bool],
    expected: Expected,
    harmless: Callable[[Case], str] | None = no_worse,
) -> Operator:
    return Operator(name, why, expected, partial(_dropped, wanted=wanted), harmless)


def _is(*actions: str) -> Callable[[Site], bool]:
    return lambda site: site.action in actions


def _has(action: str, what: str) -> Callable[[Site], bool]:
    return lambda site: site.step.get(action) == what


def _feeds(site: Site) -> bool:
    return site.step.get("power") == "on" or isinstance(site.step.get("supply"), dict)


UNFINISHED: Expected = {
    "unfinished-handover": EVERYWHERE, "unready-power": Where.LATER, "early-battery": Where.LATER,
    "wet-ignition": EVERYWHERE, "autoignition": EVERYWHERE, "vapour-in-case": EVERYWHERE,
    "hot-handling": EVERYWHERE, "bath-damage": EVERYWHERE, "solvent-beside-heat": EVERYWHERE,
    "unsafe-stop": Where.LATER,
}  # fmt: skip
LIVE: Expected = dict.fromkeys(
    ("never-powered-off", "live-board", "live-ohms", "unfinished-handover", "unready-power"), EVERYWHERE
)
LEFT: Expected = {"part-left-out": LEDGER, "lopsided-closing": LEDGER}
LISTED: Expected = {"listing-mismatch": Where.PARTNER}
GUARDED: Expected = {
    "unchecked-battery": Where.LATER, "unchecked-joint": EVERYWHERE, "washed-evidence": Where.LATER,
    "unproven-repair": EVERYWHERE, "untested-function": LEDGER | EVERYWHERE, "unproven-seal": LEDGER | EVERYWHERE,
    "charged-capacitor": EVERYWHERE, "unpaired-part": EVERYWHERE, "data-at-risk": EVERYWHERE,
    "unfinished-handover": EVERYWHERE, "unsafe-stop": Where.LATER,
}  # fmt: skip

DROPPING = (
    _operator("drop-power-off", "the device is opened, wetted or closed while it is on", _has("power", "off"), LIVE),
    _operator("drop-power-on", "what is proved after it is proved on a dead device", _feeds, {}),
    _operator("drop-supply-off", "it is worked on and closed with a feed in it", _has("supply", "off"), LIVE),
    _operator(
        "drop-unplug",
        "a battery stays joined, or a lead is torn out with its part",
        _is("unplug"),
        {**LEFT, "live-board": Where.LATER, "charged-capacitor": Where.LATER},
        None,
    ),
    _operator(
        "drop-refit",
        "a part, screw, plug or bond is forgotten in the closing",
        _is("plug", "screw", "fit", "bond"),
        {**LEFT, "reused-seal": LEDGER, "unready-power": EVERYWHERE},
        None,
    ),
    _operator(
        "drop-taking-out",
        "what is put in later never left: the hand finds no room, or two",
        _is("unscrew", "remove", "release"),
        {
            **LEFT,
            **LISTED,
            "battery-beside-heat": Where.LATER,
            "overheated-neighbour": Where.LATER,
            "forced-bond": Where.LATER,
        },
        _taken_out,
    ),
    _operator(
        "drop-replace",
        "an old seal, or no part at all, is closed in",
        _is("replace"),
        {**LEFT, "reused-seal": LEDGER | Where.HEAD, "reused-damaged-battery": LEDGER},
    ),
    _operator("drop-wait", "the next hand meets what is wet, hot or not cured", _is("wait"), UNFINISHED),
    _operator(
        "drop-heat",
        "a bond is levered cold, or a joint is never made",
        _is(*HEATS),
        {**LEFT, **LISTED, "forced-bond": Where.LATER},
        None,
    ),
    _operator(
        "drop-liquid",
        "dirt or a worse liquid stays where it was",
        _is("solvent", "bath"),
        {**UNFINISHED, **LISTED},
        _liquid,
    ),
    _operator(
        "drop-store",
        "a battery stays where the next tool is hot, or where the next hand takes it again",
        _is("store"),
        {"battery-beside-heat": Where.LATER, "reused-damaged-battery": LEDGER, "unfinished-handover": LEDGER},
        _set_aside,
    ),
    _operator(
        "drop-discharge",
        "a hand meets a part that still holds its charge",
        _is("discharge"),
        {"charged-capacitor": Where.LATER, "unknown-reference": Where.LATER},
    ),
    _operator(
        "drop-check",
        "what must be seen before or after is seen by nobody",
        lambda site: not site.action and "check" in site.step,
        GUARDED,
        check_matters,
    ),
    _operator(
        "drop-work",
        "broken glass is handled bare, or a new part is never made known",
        _is("work"),
        {**LISTED, "unpaired-part": EVERYWHERE},
        _handled,
    ),
    _operator(
        "drop-words",
        "an instruction that the dry run knows nothing of",
        lambda site: not site.action and "check" not in site.step,
        {},
        _words,
    ),
)
