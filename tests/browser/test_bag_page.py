"""The bag on a phone: ticks that stay, handing on and taking in, what gets there, what is missing, undo; and
the check limited to it."""

import json
import re

import pytest
from answers import CHAINS, listed
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

MIC, (LEAD,), MIXER = CHAINS["safe"]


def tick(page, catalogue, kind, id):
    page.get_by_role("button", name=re.compile(f"^{kind}: ")).tap()
    name = (catalogue.leads if kind == "Leads" else catalogue.ports)[id].name
    page.get_by_role("searchbox", name="Search this list").fill(name)
    page.locator(f'[data-key="tick {id}"]').tap()


@pytest.fixture
def packed(visit, catalogue):
    """A bag with one microphone, its lead and a mixer, ticked by hand."""
    page = visit("bag/")
    tick(page, catalogue, "Leads", LEAD)
    tick(page, catalogue, "Devices", MIC)
    tick(page, catalogue, "Devices", MIXER)
    return page


def counts(page):
    return [
        page.get_by_role("button", name=re.compile(f"^{kind}: ")).inner_text()
        for kind in ("Leads", "Devices")
    ]


def ask(page, start, into):
    page.get_by_role("button", name="Ask", exact=True).tap()
    for side, id in (("from", start), ("into", into)):
        page.locator(f'[data-key="ask {side}"]').tap()
        page.locator(f'.rf-option[data-id="{id}"]').tap()


def test_what_is_ticked_is_still_there_next_time(packed):
    assert counts(packed) == ["Leads: 1", "Devices: 2"]
    packed.reload()
    assert counts(packed) == ["Leads: 1", "Devices: 2"]
    expect(packed.locator(f'[data-key="tick {LEAD}"]')).to_be_checked()
    assert packed.locator(".rf-picker__group h3").first.inner_text() == "In the bag"


def test_undo_instead_of_a_question(packed):
    packed.get_by_text("Hand it on, or bring one in").tap()
    packed.get_by_role("button", name="Empty the bag").tap()
    assert counts(packed) == ["Leads: 0", "Devices: 0"]
    packed.get_by_role("button", name="Undo").tap()
    assert counts(packed) == ["Leads: 1", "Devices: 2"]
    packed.get_by_role("button", name="Undo").tap()
    assert counts(packed) == ["Leads: 1", "Devices: 1"]


def test_a_link_hands_the_bag_to_somebody_who_decides(packed, visit, catalogue):
    packed.get_by_text("Hand it on, or bring one in").tap()
    with packed.expect_download() as download:
        packed.get_by_role("button", name="Save as a file").tap()
    kept = json.loads(download.value.path().read_text())
    assert (kept["leads"], set(kept["ports"])) == ([LEAD], {MIC, MIXER})
    packed.get_by_role("button", name="Ask", exact=True).tap()
    link = packed.evaluate("Ringfence.bag.write(Ringfence.ui.bag())")
    other = visit(f"bag/{link}")
    expect(other.get_by_text("Somebody's bag: 1 lead and 2 devices.")).to_be_visible()
    assert counts(other) == ["Leads: 0", "Devices: 0"], "nothing is taken unasked"
    other.get_by_role("button", name="Use it").tap()
    assert counts(other) == ["Leads: 1", "Devices: 2"]


def test_a_file_or_a_list_comes_in(packed, visit, catalogue):
    page = visit("bag/")
    page.get_by_text("Hand it on, or bring one in").tap()
    page.get_by_placeholder("A list, a file's text or a link").fill(
        packed.evaluate("Ringfence.bag.asText(Ringfence.ui.bag())")
    )
    page.get_by_role("button", name="Read it").tap()
    page.get_by_role("button", name="Use it").tap()
    assert counts(page) == ["Leads: 1", "Devices: 2"]


def test_what_in_my_bag_gets_this_into_that(packed, catalogue):
    ask(packed, MIC, MIXER)
    expect(packed.get_by_role("heading", name="Safe with what you carry")).to_be_visible()
    way = packed.locator(".rf-option", has_text=catalogue.leads[LEAD].name)
    assert way.locator(".rf-verdict").inner_text() == "safe"
    way.tap()
    expect(packed).to_have_url(re.compile(f"check/#from={MIC}&through={LEAD}&into={MIXER}$"))


def test_what_is_missing_is_named_and_can_be_packed(packed, catalogue):
    ask(packed, MIC, "camera-mic-in-35")
    expect(packed.locator(".rf-bag__outcome")).to_have_text("Nothing in the bag goes between these")
    packed.get_by_role("button", name="Put on the packing list").tap()
    packed.get_by_role("button", name="Pack", exact=True).tap()
    expect(packed.get_by_role("heading", name="1 of 1 missing")).to_be_visible()
    job = packed.locator(".rf-jobs > li")
    expect(job).to_contain_text("Missing. The safest single lead for it:")
    job.get_by_role("button", name="Put in the bag").tap()
    expect(
        packed.get_by_role("heading", name=re.compile("Everything is in the bag|All there"))
    ).to_be_visible()
    packed.get_by_role("button", name="Undo").tap()
    expect(packed.get_by_role("heading", name="1 of 1 missing")).to_be_visible()


def test_where_no_single_lead_helps_the_bag_says_so(packed):
    ask(packed, MIC, "word-clock-in-bnc")
    expect(packed.locator(".rf-bag__outcome")).to_be_visible()
    expect(packed.get_by_text("No single lead in this catalogue makes it work either.")).to_be_visible()


def test_the_check_can_be_limited_to_the_bag(packed):
    packed.goto(f"check/#from={MIC}&into=mixer-mic-in-p48-xlr")
    ways = packed.locator(".rf-ways__list .rf-way")
    ways.nth(3).wait_for(state="attached")
    packed.get_by_role("switch", name="Only what is in my kit").tap()
    for _ in range(2):
        packed.locator(f".rf-way[data-through='{LEAD}']").wait_for(state="attached")
        assert {way.get_attribute("data-through") for way in ways.all()} <= {LEAD, ""}  # and straight in
        packed.reload()
