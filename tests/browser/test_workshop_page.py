"""The search with a meter, by thumb: every answer is a tap, the address holds the readings, and
it ends on the fault."""

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser
LEAD = "workshop/xlr-f-to-xlr-m-3m/"


def answered(page, wanted):
    """Answer as a person with an open contact 2 would, until the search has found it; the questions asked."""
    asked = []
    while (title := page.locator(".rf-ask__title").inner_text()) and not title.startswith("Found"):
        asked.append(title)
        page.locator(f'.rf-reply[data-answer="{wanted(title)}"]').tap()
        expect(page.locator(".rf-ask__title")).not_to_have_text(title)
    return asked


def open_two(title):
    pair = title.split(": ")[1]
    return "below 1 Ω: a wire" if pair in ("a.1 to b.1", "a.3 to b.3") else "no reading"


def test_taps_lead_to_the_fault_and_back(visit):
    page = visit(LEAD)
    asked = answered(page, open_two)
    assert 2 <= len(asked) <= 6
    assert page.locator(".rf-ask__title").inner_text() == "Found: a.2 or b.2 open"
    page.go_back()
    expect(page.locator(".rf-ask__title")).to_have_text(asked[-1])
    page.locator(".rf-chip").first.tap()
    expect(page.locator(".rf-chip")).to_have_count(len(asked) - 2)


def test_a_number_is_typed_and_a_wrong_one_is_explained(visit):
    page = visit(LEAD)
    field = page.get_by_label("What the meter shows, in ohm")
    field.fill("abc")
    page.get_by_role("button", name="It shows this").tap()
    expect(page.get_by_role("alert")).to_have_text(
        "“abc” is not a resistance. Write it like 0.3, 680 or 2.2k. Nothing was lost."
    )
    field.fill("105")
    page.get_by_role("button", name="It shows this").tap()
    expect(page.locator(".rf-workshop__likely li").first).to_contain_text("a bad joint of 100 Ω")


def test_nothing_is_wider_than_the_screen(visit, size):
    page = visit(LEAD, size=size)
    expect(page.locator(".rf-ask__title")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]


def test_a_hostile_address_asks_the_first_question(visit):
    page = visit(LEAD + "#read=<script>=1,a.9-b.9=open&hear=constructor")
    expect(page.locator(".rf-ask__title")).to_contain_text("Next: ")
    assert page.locator(".rf-chip").count() == 0


def test_the_way_with_a_meter_reads_in_one_go(visit):
    """Words, reading and answers follow one another; a style of another list once
    spread them over columns."""
    page = visit("workshop/xlr-f-to-xlr-m-3m/")
    way = page.locator(".rf-apart")
    expect(way).to_contain_text("measure a.1-b.1")
    assert way.evaluate("one => getComputedStyle(one).display") == "block"
