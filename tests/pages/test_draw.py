"""Views in, pages out: what each page holds, what it must not hold, and how large it may be."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup
from jinja2 import TemplateNotFound, UndefinedError

from benchleaf.pages.draw import TEMPLATES, drawer
from benchleaf.pages.views import POLICY, POLICY_WHILE_SERVING, Phase, Sheet
from tests.conftest import ROOT
from tests.pages import samples, sheets
from tests.pages.shop import NASTY

if TYPE_CHECKING:
    from bs4 import Tag

    from benchleaf.pages.draw import Drawer
    from benchleaf.pages.views import View

OVERRIDES = ROOT / "site_overrides"
DRAWER = drawer(OVERRIDES)
LARGEST = 20_000  # bytes of a procedure of fifteen steps: a thousand of them still copy to a stick in no time


def page_of(view: View, *, by: Drawer = DRAWER) -> BeautifulSoup:
    """Return a view's page, read as a browser would."""
    return BeautifulSoup(by.draw(view), "html.parser")


def texts(page: Tag, selector: str) -> list[str]:
    """Return what the reader sees in each element that the selector finds."""
    return [" ".join(element.get_text().split()) for element in page.select(selector)]


def step(page: Tag, name: str) -> Tag:
    """Return one step's rows."""
    (found,) = page.select(f'[data-step="{name}"]')
    return found


@pytest.fixture(params=samples.SAMPLES, scope="module")
def page(request: pytest.FixtureRequest) -> BeautifulSoup:
    """Return each sample page in turn."""
    return page_of(samples.SAMPLES[request.param])


def test_every_kind_is_sampled() -> None:
    """Each kind of page that can be drawn is among the samples."""
    drawn = {type(view) for view in samples.SAMPLES.values()}

    assert set(TEMPLATES) == drawn


def test_one_heading(page: BeautifulSoup) -> None:
    """A page has one main heading."""
    assert 1 == len(page.select("h1"))


def test_policy(page: BeautifulSoup) -> None:
    """A page says before anything that loads that nothing from elsewhere and nothing inline may run."""
    first = page.select("head meta[http-equiv], head link, head script")[0]

    assert POLICY == first["content"]


def test_nothing_inline(page: BeautifulSoup) -> None:
    """A page holds no script text, no style text, no style attribute and no handler."""
    inline = [
        element.name
        for element in page.select("*")
        if (element.name == "script" and not element.get("src") and element.get("type") != "application/json")
        or element.name == "style"
        or any(name == "style" or name.startswith("on") for name in element.attrs)
    ]

    assert [] == inline


def test_no_name_twice(page: BeautifulSoup) -> None:
    """A page gives each anchor once."""
    names = [element["id"] for element in page.select("[id]")]

    assert sorted(set(names)) == sorted(names)


def test_skip_link_leads_to_the_sheet(page: BeautifulSoup) -> None:
    """The first link of a page leads past its head to the sheet."""
    first = page.select("body a")[0]

    assert page.select_one("main") is page.select_one(str(first["href"]))


def test_emergency_is_one_press_away(page: BeautifulSoup) -> None:
    """Every page names the local rules and links to what is done first in an emergency."""
    assert ["Stop and make safe"] == texts(page, "footer a[href*='stop-and-make-safe']")
    assert "Local rules and licensed practice come first." in texts(page, "footer strong, .local strong")


def test_every_column_head_says_so(page: BeautifulSoup) -> None:
    """Each head cell says whether it stands for a row or a column."""
    assert {"row", "col"} >= {str(head.get("scope")) for head in page.select("th")}


def test_links_climb_to_the_site() -> None:
    """On a page two folders down what every page needs is found two folders up."""
    page = page_of(sheets.PROCEDURE)

    needed = [str(element.get("href") or element["src"]) for element in page.select("head link, head script")]
    assert ["../../assets/"] * len(needed) == [link[: len("../../assets/")] for link in needed]


def test_serving_needs_another_policy() -> None:
    """While one writes, the policy lets the development server reload the page, and is otherwise the same."""
    shell = replace(samples.HOME.shell, policy=POLICY_WHILE_SERVING)

    page = page_of(replace(samples.HOME, shell=shell))

    (policy,) = page.select("meta[http-equiv]")
    assert POLICY_WHILE_SERVING == policy["content"]


def test_home_has_one_search_field() -> None:
    """The first page asks for the customer's words in its sheet, and not in its head besides."""
    page = page_of(samples.HOME)

    assert ["home"] == [field["data-search"] for field in page.select("[data-search]")]
    assert ["q"] == [label["for"] for label in page.select("[data-search] label")]


def test_other_pages_search_in_the_head() -> None:
    """Any other page has the field in its head, with the way to the site's folder."""
    (field,) = page_of(samples.DEVICE).select("header [data-search]")

    assert ("head", "../") == (field["data-search"], field["data-root"])


def test_current_place_is_marked() -> None:
    """The header marks the place below which the page stands."""
    assert ["Procedures"] == texts(page_of(sheets.PROCEDURE), "nav [aria-current]")


def test_title_block() -> None:
    """The title block holds every cell with its label, and notes below their value."""
    page = page_of(sheets.PROCEDURE)

    assert ["Number", "Revision", "Reviewed", "Status", "For", "Level", "Hands on", "Waiting"] == texts(page, "dt")
    assert "18–24 min12–14 min of it opening and closing, shared in a job" in texts(page, "dd")


def test_five_columns_of_requirements() -> None:
    """The preliminary requirements stand in five columns and a row, and an empty one says so."""
    page = page_of(replace(sheets.PROCEDURE, needs=replace(sheets.PROCEDURE.needs, spares=())))

    heads = ["Conditions", "Equipment", "Supplies, used up", "Spares", "Safety messages", "Work it asks for"]
    assert heads == texts(page, ".needs h3")
    assert ["none"] == texts(page, ".needs > :nth-child(4) li")


def test_steps_in_order() -> None:
    """Steps are numbered by phase and stand in the order in which they are done."""
    page = page_of(sheets.PROCEDURE)

    numbers = ["O1", "O2", "O3", "O4", "O5", "O6", "W1", "W2", "W3", "W4", "W5", "W6", "W7", "C1", "C2", "C3", "P1"]
    assert numbers == texts(page, "[data-step] th")


def test_step_can_be_linked_to() -> None:
    """A step's anchor is made from its id, which outlives its number."""
    assert "step-tin" == step(page_of(sheets.PROCEDURE), "tin")["id"]


def test_safety_before_the_step() -> None:
    """Safety messages stand in the step's own rows, before the instruction, so that nothing can come between."""
    rows = step(page_of(sheets.PROCEDURE), "tin").select("tr")

    assert [["ignition"], ["heat"], []] == [
        [str(message["data-callout"]) for message in row.select("[data-callout]")] for row in rows
    ]


def test_signal_word_is_text() -> None:
    """The signal word is said in words, not by colour alone."""
    (message,) = step(page_of(sheets.PROCEDURE), "tin").select('[data-signal="warning"]')

    assert ["WARNING"] == texts(message, ".msg-word")


def test_authored_caution_has_no_signal_word() -> None:
    """A caution whose weight is not known shows its hazard and claims no signal word."""
    (message,) = step(page_of(sheets.PROCEDURE), "open-opening-3").select('[data-callout="glass"]')

    assert not message.has_attr("data-signal")
    assert ["Glass"] == texts(message, ".msg-word")


@pytest.mark.parametrize("symbol", sorted(path.stem for path in (OVERRIDES / "symbols").iterdir()))
def test_every_symbol_can_be_drawn(symbol: str) -> None:
    """Each drawing of a hazard stands in its message, unseen by those who hear the word."""
    message = replace(sheets.HOT, symbol=symbol)

    page = page_of(replace(samples.MATERIAL, messages=(message,)))

    (drawing,) = page.select("[data-callout] svg")
    assert "true" == drawing["aria-hidden"]


def test_limit_and_check_stand_in_the_second_column() -> None:
    """A limit and a check say what kind they are."""
    page = page_of(sheets.PROCEDURE)

    assert ["350 °C, 2–3 s"] == texts(step(page, "tin"), 'td:nth-of-type(2) [data-limit="joint"] strong')
    assert ["> 10 kΩ"] == texts(step(page, "steps-7"), 'td:nth-of-type(2) [data-check="measure"] strong')


def test_way_on_when_a_check_fails() -> None:
    """A failing check says in one sentence what to do, with links to the step and the procedure that follow."""
    page = step(page_of(sheets.PROCEDURE), "steps-6")

    assert ["If not: repeat from W4, once; then Replace the charge port."] == texts(page, ".way-on")
    assert ["#step-tin", "replace-charge-port.html"] == [link["href"] for link in page.select(".way-on a")]


def test_picture_below_its_instruction() -> None:
    """A picture stands in the instruction's own cell, after the words, with words for those who cannot see it."""
    cell = step(page_of(sheets.PROCEDURE), "look").select_one("td")

    assert cell is not None
    assert "figure" == cell.find_all(recursive=False)[-1].name
    assert [sheets.PROCEDURE.sheet.phases[1].rows[0].pictures[0].alt] == [img["alt"] for img in cell.select("img")]


def test_rows_for_some_variants_are_marked() -> None:
    """A step for some variants is marked for the script, and says so to the reader."""
    found = step(page_of(sheets.PROCEDURE), "open-opening-3")

    assert "g2" == found["data-variant"]
    assert "Godwit G2 only" in texts(found, ".only")


def test_variants_only_where_there_is_a_choice() -> None:
    """A procedure for one variant shows no row of variants and loads no script for it."""
    page = page_of(replace(sheets.PROCEDURE, variants=None))

    assert [] == page.select("[data-variants], script[src$='variants.js']")


def test_draft_says_so_first() -> None:
    """A procedure that is not approved says so above its title."""
    main = page_of(sheets.LONG).select_one("main")

    assert main is not None
    assert "draft" == main.find_all(recursive=False)[0]["data-status"]


def test_close_requirements() -> None:
    """What is to be counted back ends the sheet."""
    assert ["8 of 8", "1 of 1", "1 of 1", "yes"] == texts(page_of(sheets.PROCEDURE), ".close td")


def test_authors_text_is_escaped() -> None:
    """What an author writes is text, whatever it looks like."""
    html = DRAWER.draw(sheets.PROCEDURE)

    assert "&lt;2\N{NO-BREAK SPACE}N·m &amp; &#34;x&#34;" in html
    assert NASTY not in html


def test_quotation_mark_does_not_end_an_attribute() -> None:
    """A quotation mark in a text that becomes an attribute stays inside it."""
    shell = replace(samples.HOME.shell, site_id='a" onclick="b')

    (script,) = page_of(replace(samples.HOME, shell=shell)).select("script[data-site]")

    assert 'a" onclick="b' == script["data-site"]


def test_plan_tells_lengths_by_line() -> None:
    """In the fastener plan each item has a line style of its own, which its row in the schedule shows too."""
    page = page_of(samples.DEVICE)

    plan = {(str(hole["data-item"]), " ".join(hole["class"])) for hole in page.select(".plan circle")}
    assert {("A", "hole thin"), ("B", "hole dashed"), ("C", "hole heavy")} == plan
    assert ["hole thin", "hole dashed", "hole heavy"] == [" ".join(key["class"]) for key in page.select(".key circle")]


def test_access_is_nested() -> None:
    """A level stands inside the level that it starts from."""
    page = page_of(samples.DEVICE)

    assert ["level-bare-board"] == [level["id"] for level in page.select("#level-closed #level-open li[id]")]


def test_share_is_words_and_a_bar() -> None:
    """A share is said in words, and its bar has the same length."""
    (_, row, _) = page_of(samples.SYMPTOM).select("#godwit table:first-of-type tbody tr")

    assert ["27 %"] == texts(row, ".share span")
    assert ["27"] == [bar["width"] for bar in row.select(".bar-part")]


def test_register_shows_why_a_finding_is_allowed() -> None:
    """An allowed finding stands in the register with its rule, its place and the author's reason."""
    found = texts(page_of(samples.REGISTER), "[data-status=approved] .line")

    assert ["long-screw at O2Both lengths end in blind bosses.", "1 in level “board”"] == found


def test_nothing_in_a_matrix_is_said() -> None:
    """A symptom that a device does not have is a dash, not a gap."""
    (row,) = [row for row in page_of(samples.HOME).select(".matrix tbody tr") if "no reading" in row.get_text()]

    assert ["probe swap, closed, 2 min", "–", "–"] == texts(row, "td")


def test_plain_words_make_no_link() -> None:
    """A link that leads nowhere is drawn as words."""
    page = page_of(samples.REGISTER)

    assert ["dunlin / replace-display"] == [text[:24] for text in texts(page, "tbody th:not(:has(a))")]


def test_misspelt_field_is_an_error() -> None:
    """A template that asks for a field that no view has stops the page instead of leaving a gap."""
    misspelt = drawer({"home/page.html": "{{ view.heeding }}"})

    with pytest.raises(UndefinedError, match="heeding"):
        misspelt.draw(samples.HOME)


def test_unknown_symbol_is_an_error() -> None:
    """A hazard without a drawing stops the page: a message must not lose its symbol unseen."""
    message = replace(sheets.HOT, symbol="dragon")

    with pytest.raises(TemplateNotFound, match="dragon"):
        DRAWER.draw(replace(samples.MATERIAL, messages=(message,)))


def test_templates_can_be_texts() -> None:
    """Templates may be handed in as texts, and are escaped all the same."""
    by_text = drawer({"home/page.html": "<p>{{ view.matrix_title }}</p>"})

    assert "<p>a &amp; b</p>" == by_text.draw(replace(samples.HOME, matrix_title="a & b"))


def test_procedure_is_small() -> None:
    """A procedure of more than fifteen steps, with safety messages and a picture, stays small."""
    assert len(DRAWER.draw(sheets.PROCEDURE).encode()) < LARGEST


def test_each_step_adds_little() -> None:
    """A page grows with its steps by little more than what the steps say."""
    (phase,) = sheets.LONG.sheet.phases
    short = replace(sheets.LONG, sheet=Sheet((Phase("W", "Work", phase.rows[:30]),)))

    assert len(DRAWER.draw(sheets.LONG)) - len(DRAWER.draw(short)) < 30 * 800
