"""What follows a failed check is wrong: nothing, a procedure that is not for this device, or a way in a circle."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.mutants.fault import Mutant, Operator, Where
from tests.mutants.operators.dropping import EVERYWHERE
from tests.mutants.operators.edits import changed, leave_out
from tests.mutants.sites import ACTIONS, Site, procedures, sites
from tests.mutants.tree import Pointer, value

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.mutants.book import Book
    from tests.mutants.case import Case

_HERE = Where.HERE | EVERYWHERE

DEFAULT_STOP = "a repeat without `then` ends in a stop, as the format says"
CHANGES = "something is changed on the way round: the second time is not like the first"
HOME = "the device is complete, dry, cool and off at its level when the check fails: it is closed up and begun again"


def _ways(site: Site) -> Iterator[Pointer]:
    """Yield the way to each end that a failed check of *site* has."""
    way = site.step.get("check", {}).get("if_not", {})
    if "go_to" in way or "stop" in way:
        yield ("check", "if_not")
    if "then" in way:
        yield ("check", "if_not", "then")


def _default_stop(case: Case) -> str:
    return DEFAULT_STOP if case.mutant.at[-1] == "then" else ""


def _foreign(book: Book) -> Iterator[Mutant]:
    """Yield each `go_to` that names a procedure which is another device's, withdrawn, or not approved."""
    for site in sites(book):
        for pointer in _ways(site):
            if "go_to" in value(site.step, pointer):
                for target in _strangers(book, site):
                    yield changed(site, (*pointer, "go_to"), target)


def _strangers(book: Book, site: Site) -> list[str]:
    device = book.files[site.path].device
    own = {book.files[path].id for path, _ in procedures(book) if book.files[path].device in {device, "any"}}
    others = sorted({book.files[path].id for path, _ in procedures(book)} - own)
    closed = [
        file.id
        for path, file in book.files.items()
        if file.kind == "procedure" and file.device == device and path != site.path
        if book.trees[path].get("status", "draft") != "approved"
    ]
    return [*others[:2], *closed]


def _circle(book: Book) -> Iterator[Mutant]:
    """Yield each `stop` of a procedure that leads to the procedure itself instead."""
    for site in sites(book):
        for pointer in _ways(site) if site.steps == ("steps",) else ():
            if "stop" in value(site.step, pointer):
                yield changed(site, pointer, {"go_to": book.files[site.path].id})


def _idle(case: Case) -> str:
    """Return why a circle is none: a step of the work before the check has changed the device."""
    steps = case.book.trees[case.mutant.path]["steps"][: int(case.mutant.at[1]) + 1]
    changes = any("apply" in step or set(step) & set(ACTIONS) - {"wait", "work", "supply"} for step in steps)
    return CHANGES if changes else ""


def _shallower(book: Book) -> Iterator[Mutant]:
    """Yield each way out of an opened device that leads to a procedure for a closed one."""
    for site in sites(book):
        tree, device = book.trees[site.path], book.files[site.path].device
        opened = site.steps == ("steps",) and tree.get("access", "closed") != "closed"
        for pointer in _ways(site) if opened else ():
            for path, other in procedures(book):
                closed = other.get("access", "closed") == "closed" and other.get("status") == "approved"
                if book.files[path].device == device and closed:
                    yield changed(site, pointer, {"go_to": book.files[path].id})


def _at_home(case: Case) -> str:
    """Return why an opened device may go to a procedure for a closed one: it lacks nothing at its level."""
    for trace in case.own:
        moments = [each for each in trace.straight if each.kind in {"opening", "work"}]
        opened = next((each.before for each in moments if each.kind == "work"), trace.start)
        state = next((each.after for each in moments if each.step.do.text == case.mutant.says), None)
        if state is None:
            continue
        out = set(state.away) - set(opened.away) or set(state.unplugged) - set(opened.unplugged)
        if out or state.tray != opened.tray or state.wet or state.hot or state.freed or state.live:
            return ""
    return HOME


ROUTES = (
    Operator(
        "foreign-target",
        "a failed check leads where nobody can go",
        {"unknown-reference": Where.HERE},
        _foreign,
    ),
    Operator(
        "circle",
        "a failed check leads back to where it failed",
        {"endless-route": _HERE, "unreached-level": _HERE, "unsafe-stop": _HERE},
        _circle,
        _idle,
    ),
    Operator(
        "shallower-target",
        "a failed check leads an opened device to work on a closed one",
        {
            "unreached-level": _HERE, "unsafe-stop": _HERE, "unknown-reference": Where.HERE, "endless-route": _HERE,
            "unfinished-handover": _HERE, "part-left-out": _HERE,
        },
        _shallower,
        _at_home,
    ),
    Operator(
        "drop-way-out",
        "a check that fails leaves a person alone",
        {"dead-end-check": Where.HERE},
        leave_out(("check", "if_not"), ("check", "if_not", "then")),
        _default_stop,
    ),
)  # fmt: skip
