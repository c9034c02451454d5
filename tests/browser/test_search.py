"""From the customer's words to the right procedure: search, as a person uses it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

SYMPTOM = "symptoms/no-charge.html"


def results(page: Page) -> Locator:
    """Return the links that search shows."""
    return page.locator("[data-search-results] a")


def ask(page: Page, words: str) -> Locator:
    """Type *words* into the page's search field as a person does, key by key, and return the field."""
    field = page.locator("[data-search] input")
    field.click()
    field.press_sequentially(words)
    expect(results(page).first).to_be_visible()
    return field


def test_customers_words_with_typing_mistakes(page: Page, address: str) -> None:
    """The customer's words, typed in haste, show the symptom first."""
    page.goto(f"{address}index.html")

    ask(page, "wont chrage")

    assert f"{address}{SYMPTOM}" == results(page).first.evaluate("link => link.href")


def test_enter_opens_the_first_result(page: Page, address: str) -> None:
    """Enter, pressed in the field, opens the first result, and from there a procedure opens."""
    page.goto(f"{address}index.html")

    ask(page, "wont chrage").press("Enter")
    page.wait_for_url(f"{address}{SYMPTOM}")
    page.locator("main a[href*='repairs/']").first.click()
    page.wait_for_url(f"{address}repairs/**")

    assert page.locator("[data-step]").count() > 0


def test_search_from_a_page_below(page: Page, address: str) -> None:
    """The field in the head of a page two folders down leads to the same place."""
    page.goto(f"{address}{SYMPTOM}")
    page.locator("main a[href*='repairs/']").first.click()

    ask(page, "battery stays empty").press("Enter")
    page.wait_for_url(f"{address}symptoms/**")

    assert f"{address}{SYMPTOM}" == page.url


def test_nothing_found_is_said(page: Page, address: str) -> None:
    """Words that lead nowhere are answered with what to try, and a way to the list of symptoms."""
    page.goto(f"{address}{SYMPTOM}")
    page.locator("[data-search] input").click()

    page.locator("[data-search] input").press_sequentially("zzqqxx")
    expect(page.locator("[data-search-results]")).to_contain_text("othing")
    results(page).get_by_text("Symptoms by device").click()
    page.wait_for_url(f"{address}index.html#symptoms")

    expect(page.locator("#symptoms h2")).to_have_text("Symptoms by device")


def test_what_matched_is_marked(page: Page, address: str) -> None:
    """What was typed is marked in the answer, also where it was misspelt or the house has another word for it."""
    page.goto(f"{address}index.html")

    ask(page, "lcd blck")

    assert {"display", "dark"} <= {
        mark.lower() for mark in page.locator("[data-search-results] tbody tr mark").all_inner_texts()
    }


def test_key_of_the_field(page: Page, address: str) -> None:
    """The browser's own access key leads to the field from anywhere on the page, and without a script of ours."""
    page.goto(f"{address}{SYMPTOM}")
    field = page.locator("[data-search] input")
    expect(field).not_to_be_focused()

    # Playwright leaves out the letter that the key has by itself, and by that alone the browser knows an access key.
    page.context.new_cdp_session(page).send(
        "Input.dispatchKeyEvent",
        {
            "type": "keyDown",
            "modifiers": 1,
            "key": "s",
            "code": "KeyS",
            "unmodifiedText": "s",
            "windowsVirtualKeyCode": 83,
        },
    )

    expect(field).to_be_focused()


def test_single_keys_are_left_alone(page: Page, address: str) -> None:
    """No single character does anything on a page: who dictates, or drops a glove on the keyboard, stays there."""
    page.goto(f"{address}{SYMPTOM}")
    before = page.evaluate("[location.href, scrollY, document.activeElement.tagName]")

    page.keyboard.type("/?sqn1")

    assert before == page.evaluate("[location.href, scrollY, document.activeElement.tagName]")
