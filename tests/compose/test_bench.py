"""The page to work by: who takes in what, the data of its ways, the words of its board, the size of its letters."""

from __future__ import annotations

import json
import re
from functools import cache
from typing import TYPE_CHECKING, Any

import pytest
from bs4 import BeautifulSoup

from benchleaf import build
from benchleaf.derive.board import Board, Lying, Neighbour, Warm
from benchleaf.model.procedure import Arrives
from benchleaf.pages.compose.bench.arrival import covered
from benchleaf.pages.compose.bench.board import BoardWords
from benchleaf.pages.compose.bench.emergency import emergency
from benchleaf.pages.compose.bench.sizes import PATH
from benchleaf.pages.compose.site import Options
from benchleaf.source.folder import scan
from tests import make
from tests.conftest import ROOT

if TYPE_CHECKING:
    from collections.abc import Mapping

EXAMPLE = "bench/wader/example.html"
NOTHING = Board((("battery", False, ""),), "off", (), (), (), (), (), None, (), 0.0)
WORDS = BoardWords(None, {}, "°C")
READ = """\
  - do: Read it.
    check: {{measure: {what}, with: multimeter, expect: "{expect}", if_not: {{stop: It is not.}}}}
"""


@cache
def demonstration() -> dict[str, str]:
    """Return the pages of the demonstration."""
    return make.pages(build.check(scan(ROOT, "procedures")), Options())


def pages(steps: str, head: str = "access: open", shop: str = make.SHOP) -> Mapping[str, str]:
    """Return the pages of the small knowledge base with one procedure of *steps*."""
    text = f"title: Example\nstatus: approved\n{head}\nsteps:\n{steps}\n"
    return make.pages(make.check({make.EXAMPLE: text, f"{make.DOCS}/shop.yml": shop}), Options())


def data(page: str) -> dict[str, Any]:
    """Return the data of a bench page; a space that does not break is a space here."""
    found = BeautifulSoup(page.replace("\N{NO-BREAK SPACE}", " "), "html.parser").select_one("#bench-way")
    assert found is not None
    read: dict[str, Any] = json.loads(found.get_text())
    return read


def asked(what: str, expect: str) -> dict[str, Any]:
    """Return the data of the check of a reading."""
    check: dict[str, Any] = data(pages(READ.format(what=what, expect=expect))[EXAMPLE])["steps"]["steps-1"]["check"]
    return check


def test_reading_in_the_unit_that_was_written() -> None:
    """A reading has its limits in the unit beside the field, to the figures that were written."""
    assert asked("voltage", "3.0–4.2 V")["low"] == 3.0
    assert asked("resistance", "> 10 kΩ") == {
        "kind": "reading", "quantity": "resistance", "unit": "kΩ", "low": 10.0, "high": None, "strict": True,
        "limits": "> 10 kΩ",
    }  # fmt: skip
    assert asked("current", "0.3–0.9 mA")["high"] == 0.9


def test_timers() -> None:
    """A wait has its time, a touch its window, how often and how far apart."""
    steps = data(
        pages("""\
  - do: Wait.
    wait: {for: 2 min, until: dry}
  - do: Solder it.
    solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2–3 s, times: 4, pause: 5 s}
""")[EXAMPLE]
    )["steps"]

    assert steps["steps-1"]["timer"] == {
        "kind": "wait", "low": 120.0, "high": 120.0, "times": 1, "apart": None, "label": "Wait until dry",
    }  # fmt: skip
    assert steps["steps-2"]["timer"] == {
        "kind": "dwell", "low": 2.0, "high": 3.0, "times": 4, "apart": 5.0, "label": "Each touch",
    }  # fmt: skip


def test_tray_by_kind_and_length() -> None:
    """Screws and parts that lie out are named by item, drive, thread and length, and come back to nothing."""
    way = data(pages("  - do: Look on.")[EXAMPLE])
    nodes = way["ways"][0]["nodes"]
    moved: dict[str, int] = {}
    for node in nodes:
        for what, count in node["moves"]:
            moved[what] = moved.get(what, 0) + count
    fullest = max((way["trays"][node["tray"]] for node in nodes), key=len)

    assert [["A: T4 M2 × 5 mm", 4], ["Back shell", 1]] == fullest
    assert {0} == set(moved.values())
    assert [] == way["trays"][nodes[-1]["tray"]]


def test_digest_follows_the_text() -> None:
    """Another limit gives another digest though the revision is the same; the same text gives the same one."""
    old, same, new = (
        data(pages(f"  - do: Wait.\n    wait: {{for: {time}}}")[EXAMPLE]) for time in ("2 min", "2 min", "3 min")
    )

    assert old["digest"] == same["digest"] != new["digest"]
    assert old["revision"] == new["revision"]


def test_variants_that_come_out_alike_share_a_way() -> None:
    """Each variant has a way, and every number in the data leads somewhere."""
    for path, page in demonstration().items():
        if path.startswith("bench/"):
            found = data(page)
            sections = {
                str(one["data-step"]) for one in BeautifulSoup(page, "html.parser").select("section[data-step]")
            }
            assert set(found["variants"].values()) == set(range(len(found["ways"])))
            assert sections == set(found["steps"])
            for way in found["ways"]:
                for node in way["nodes"]:
                    ahead = [node["next"], (node["fail"] or {}).get("to")]
                    assert all(to is None or 0 <= to < len(way["nodes"]) for to in ahead)
                    assert node["board"] < len(found["boards"])
                    assert (node["fail"] is None) == (found["steps"][node["step"]]["check"] is None)


def test_nothing_that_is_written_ends_the_data() -> None:
    """Text of an author stays text within the data, whatever signs it holds."""
    page = pages('  - do: "Look."\n    check: {look: "It says </script><!-- & <b>.", if_not: {stop: "</script>"}}')[
        EXAMPLE
    ]
    check = data(page)["steps"]["steps-1"]["check"]

    assert 1 == page[page.index('id="bench-way"') :].count("</script>")
    assert "It says </script><!-- & <b>." == check["ask"]


@pytest.mark.parametrize(
    ("liquid", "takes"),
    [
        ("none", {"none"}),
        ("water", {"none", "water"}),
        ("sea-water", {"none", "water", "sea-water", "unknown"}),
        ("unknown", {"none", "water", "sea-water", "unknown"}),
    ],
)
def test_not_known_takes_the_bad_end(liquid: str, takes: set[str]) -> None:
    """A procedure takes in what is no worse than what it is written for; what nobody knows is the worst."""
    assert takes == set(covered(Arrives(liquid=liquid))["liquid"])


def test_another_procedure_is_named() -> None:
    """A page names who takes in a wet, swollen or broken device, with and without script."""
    page = demonstration()["bench/godwit/clean-charge-port.html"]
    others = {own["title"]: own for own in data(page)["arrival"]["others"]}
    said = BeautifulSoup(page, "html.parser").select_one(".takes")

    assert ["none"] == data(page)["arrival"]["own"]["liquid"]
    assert "sea-water" in others["Wash the main board after sea water"]["liquid"]
    assert "swollen" in next(iter(others.values()))["battery"]
    assert said is not None
    assert "If it met sea water: Wash the main board after sea water." in " ".join(said.get_text().split())


def test_board_says_the_bad_end() -> None:
    """Times are rounded up, a neighbour up, its limit down, and a share of the air up."""
    board = NOTHING._replace(
        wet=(Lying("lamp", burns=True, seconds=61.2),), hot=(Warm("lamp", 100.4, 50.1),),
        beside=Neighbour("battery", 40.2, 59.9), air=0.0512,
    )  # fmt: skip
    said = {
        name: f"{value}; {small}".replace("\N{NO-BREAK SPACE}", " ")
        for name, (value, small) in WORDS.lines(board).items()
    }

    assert "lamp wet; burns; left alone, dry in 62 s at the most" == said["wet"]
    assert "lamp hot; no hand on it for 51 s; cool in 101 s at the most; battery up to 41 °C of 59 °C" == said["hot"]
    assert "5.2 % of the limit; falling" == said["air"]


def test_board_says_when_nobody_knows() -> None:
    """Where no formula holds the board says so, and gives no time."""
    board = NOTHING._replace(wet=(Lying("lamp", burns=False, seconds=float("inf")),))

    assert "nobody can say when it is dry" == WORDS.lines(board)["wet"][1]


def test_board_counts_several_packs() -> None:
    """Of two packs the one that is joined is named."""
    board = NOTHING._replace(packs=(("battery", False, ""), ("spare", True, "swollen")))
    value, small = WORDS.lines(board)["battery"]

    assert "1 of 2 isolated" == value
    assert small.startswith("joined: spare; swollen")


@pytest.mark.outside
@pytest.mark.parametrize(
    ("name", "least", "read", "say"), [("near", 19, 24, 26), ("", 29, 36, 40), ("far", 36, 45, 50)]
)
def test_size_of_type(name: str, least: int, read: int, say: int) -> None:
    """
    At 0.8, 1.2 and 1.5 m of a screen of 0.277 mm the sizes are those of the table of 16, 20 and 22 minutes of arc.

    Computed by 2 d tan(arc/2) and capitals of 0.70 em (ISO 9241-303, as vendors' ergonomics pages give it); ours are
    whole pixels up, so never below, and at most one above.
    """
    sheet = demonstration()[PATH]
    rule = re.search(
        rf'^:root{re.escape(f"""[data-size="{name}"]""") if name else ""} {{ (.*?) }}', sheet, re.MULTILINE
    )
    assert rule is not None
    sizes = {what: int(value) for what, value in re.findall(r"--(\w+): (\d+)px", rule[1])}

    assert 0 <= sizes["least"] - least <= 1
    assert 0 <= sizes["read"] - read <= 1
    assert 0 <= sizes["say"] - say <= 1
    assert sizes["limit"] > sizes["say"]


def test_size_of_type_without_a_monitor() -> None:
    """A shop that says nothing of its screen has letters for 1.2 m; beyond 3 m no formula holds and they stay."""
    silent = pages("  - do: Look on.")[PATH]
    far = pages("  - do: Look on.", shop=f"{make.SHOP}monitor: {{distance: 9 m, pixel_pitch: 0.277 mm}}\n")[PATH]

    assert demonstration()[PATH] == silent
    assert far.count("--say: 100px") == 3


def test_emergency_is_taken_apart() -> None:
    """Each heading of the page is a case of its own, links lead to pages, and the title stands once."""
    page = emergency(
        "# Stop\n\nSay it. [Rules](house-rules.md#a)\n\n## A burn\n\n1. Cool it.\n\n## A cut\n\nPress.\n", "../"
    )

    assert ["A burn", "A cut"] == [case.title for case in page.cases]
    assert 'href="../house-rules.html#a"' in page.lead
    assert "<ol>" in page.cases[0].text
    assert "Stop" not in page.lead


def test_messages_that_go_on() -> None:
    """A grave message is said in full where it begins and in short on each step while it stays in force."""
    page = BeautifulSoup(demonstration()["bench/godwit/clean-charge-port.html"], "html.parser")
    begins = page.select('#step-steps-2 [data-callout="ignition"]')
    goes_on = page.select('#step-steps-3 [data-standing="ignition"]')

    assert 1 == len(begins)
    assert 1 == len(goes_on)
    assert not page.select('#step-steps-3 [data-callout="ignition"]')
