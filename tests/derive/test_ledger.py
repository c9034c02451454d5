"""What is counted back at the end, from the straight pass."""

from __future__ import annotations

from benchleaf.derive.ledger import Ledger, ledger
from tests.dryrun.made import trace
from tests.make import WADER


def counted(steps: str, *, access: str = "open", fields: str = "", wader: str = WADER) -> Ledger:
    """Return what is counted back at the end of *steps*."""
    return ledger(trace(steps, access=access, fields=fields, wader=wader))


def test_counted_back() -> None:
    """What the opening takes off is counted back, what is new apart from it."""
    counts = counted("- {do: Lay a new lamp in., replace: lamp}")

    assert (("case-screw", 4, 4),) == counts.screws
    assert ("back-shell",) == counts.parts
    assert ("lamp",) == counts.renewed
    assert ("pack",) == counts.batteries
    assert () == counts.left


def test_what_stays_out_is_not_counted_back() -> None:
    """A part that is handed back without is no line of the count; where it is instead is known."""
    counts = counted(
        "- {do: Lift the lens., remove: lens}\n- {do: Put it away., store: {part: lens, as: do-not-use}}",
        fields="hands_back: {without: [lens], because: It is broken.}\n",
    )

    assert ("back-shell",) == counts.parts
    assert (("lens", "discarded"),) == counts.left


def test_what_is_part_of_a_part_is_not_counted() -> None:
    """What leaves and comes back with the part that it is part of is no line of its own."""
    counts = counted("- {do: Look on.}", access="bare-board")

    assert ("back-shell", "main-board") == counts.parts


def test_battery_that_stays_isolated() -> None:
    """A battery is counted as joined only where a step joins it."""
    counts = counted(
        "- {do: Look on.}", wader=WADER.replace("      - {do: Plug the battery in., plug: battery-plug}\n", "")
    )

    assert () == counts.batteries


def test_screws_that_come_out_twice() -> None:
    """The same screws, taken out twice, are counted once; those that do not come back are missing from the count."""
    counts = counted(
        """\
- {do: Take four out., unscrew: {case-screw: 4}}
- {do: Drive four., screw: {case-screw: 4}}
- {do: Take three out., unscrew: {case-screw: 3}}
- {do: Drive two., screw: {case-screw: 2}}
""",
        access="closed",
    )

    assert (("case-screw", 3, 4),) == counts.screws
