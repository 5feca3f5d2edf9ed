"""The switches of an answer: its setting at once, in the address and in what is passed on."""

import re

import pytest
from answers import address, expected, shown
from chosen import KINDER, SWITCHED, held, knob
from conftest import PHONE
from playwright.sync_api import expect

from generator.engine import judge

pytestmark = pytest.mark.browser


def test_no_supply_is_switched_on_without_need(visit, catalogue):
    """A ribbon microphone on a splitter is as safe with both supplies off as with both
    on; the advice is off."""
    chain = "mic-ribbon-xlr", ("xlr-f-to-two-xlr-m",), "mixer-mic-in-p48-xlr"
    page = visit(address(*chain))
    ends = dict(shown(page).settings)
    both_off = next(words for words in ends if words.count(" off") == 2)
    assert ends[both_off] == "safe" and sorted(ends.values()).count("safe") > 1
    words = both_off[0].lower() + both_off[1:]
    expect(page.locator(".rf-switch")).to_have_text(f"Before plugging, set {words}: then it is safe.")


def test_a_switch_shows_its_setting_at_once(visit, catalogue, size):
    page = visit(address(*SWITCHED), size=size)
    settings = {
        setting["supplies"]["phantom"]: setting["verdict"]
        for setting in judge(catalogue, *SWITCHED).as_data()["settings"]
    }
    assert settings == {"on": "dangerous", "off": "lossy"}
    expect(page.locator(".rf-answer:not([aria-busy])")).to_be_visible()
    page.evaluate("window.sameLoad = true")
    for position in ("on", "off", "on"):
        if knob(page).get_attribute("aria-checked") != ("true" if position == "on" else "false"):
            knob(page).tap() if size is PHONE else knob(page).click()
        expect(knob(page)).to_have_attribute("aria-checked", "true" if position == "on" else "false")
        expect(page.locator(".rf-set__head")).to_have_text(
            f"With phantom 48 V {position}: {settings[position]}"
        )
        assert set(
            page.locator(".rf-findings .rf-finding").evaluate_all(
                "all => all.map((one) => one.dataset.finding)"
            )
        ) == held(page, catalogue, position)
        # over all settings, whatever the switch says
        expect(page.locator(".rf-banner h2")).to_have_text("Dangerous")
        expect(page.locator(".rf-settings [aria-current] th")).to_have_text(f"Phantom 48 V {position}")
    assert page.evaluate("window.sameLoad") is True


def test_the_switch_stands_in_sight_under_the_verdict(visit, size):
    page = visit(KINDER, size=size)
    expect(page.locator("section.rf-switches")).to_be_visible()
    banner, panel = page.evaluate(
        "['.rf-banner[data-verdict]', 'section.rf-switches'].map((one) => "
        "document.querySelector(one).getBoundingClientRect().toJSON())"
    )
    assert banner["bottom"] <= panel["top"] and panel["bottom"] < size["height"]


def test_the_address_carries_the_switches_and_back_undoes(visit):
    page = visit(address(*SWITCHED))
    knob(page).tap()
    expect(page).to_have_url(re.compile("&set=phantom:off$"))
    page.go_back()
    expect(knob(page)).to_have_attribute("aria-checked", "true")
    expect(page).to_have_url(re.compile(f"{re.escape(address(*SWITCHED))}$"))
    page.go_forward()
    expect(page.locator(".rf-set__head")).to_have_text("With phantom 48 V off: lossy")
    other = visit(page.url)
    expect(other.locator(".rf-set__head")).to_have_text("With phantom 48 V off: lossy")
    expect(other.locator(".rf-banner h2")).to_have_text("Dangerous")


@pytest.mark.parametrize(
    "asked", ["phantom:perhaps", "hum:off", "__proto__:off", "", "<img src=x>:off", "phantom:OFF"]
)
def test_an_address_that_names_no_position_shows_the_worst(visit, catalogue, asked):
    page = visit(f"{address(*SWITCHED)}&set={asked}")
    expect(page.locator(".rf-set__head")).to_have_text("With phantom 48 V on: dangerous")
    assert shown(page) == expected(catalogue, *SWITCHED)
    assert page.locator(".rf-unknown").count() == 0


def test_what_is_passed_on_carries_the_setting(visit):
    page = visit(address(*SWITCHED), permissions=["clipboard-read", "clipboard-write"])
    knob(page).tap()
    page.locator(".rf-share__more summary").tap()
    knob(page).tap()
    knob(page).tap()
    frame, cited = page.locator(".rf-share .rf-take__text").all_inner_texts()
    assert (
        "Verdict: dangerous over all settings, lossy with phantom 48 V off." in cited
        and "&amp;set=phantom:off" in frame
    )
    page.get_by_role("button", name="Copy link to this answer").tap()
    expect(page.get_by_role("button", name="Copied")).to_be_visible()
    assert page.evaluate("navigator.clipboard.readText()") == page.url and page.url.endswith(
        "&set=phantom:off"
    )


def test_another_lead_starts_from_the_worst_again(visit):
    page = visit(KINDER)
    page.locator(".rf-step__open[data-step=through]").tap()
    page.locator('.rf-option[data-id="phone-35-trs-to-xlr-m-tip-2"]').tap()
    expect(page).to_have_url(re.compile(f"{re.escape(address(*SWITCHED))}$"))
    expect(knob(page)).to_have_attribute("aria-checked", "true")


def test_two_switches_are_told_apart_and_turn_alone(visit):
    page = visit(address("mic-ribbon-xlr", ("xlr-f-to-two-xlr-m",), "mixer-mic-in-p48-xlr"))
    switches = page.get_by_role("switch")
    expect(switches).to_have_count(2)
    names = [switch.inner_text().split("\n")[0] for switch in switches.all()]
    assert len(set(names)) == 2, names
    before = [switch.get_attribute("aria-checked") == "true" for switch in switches.all()]
    switches.nth(1).tap()
    expect(switches.nth(1)).to_have_attribute("aria-checked", str(not before[1]).lower())
    expect(switches.nth(0)).to_have_attribute("aria-checked", str(before[0]).lower())
    first, second = "on" if before[0] else "off", "off" if before[1] else "on"
    expect(page).to_have_url(re.compile(f"set=phantom:{first},phantom-at-the-second-inlet:{second}$"))


def test_nothing_to_switch_shows_no_switch(visit):
    page = visit(address("mixer-line-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-line-in-xlr"))
    shown(page)
    assert (
        page.get_by_role("switch").count() == 0
        and page.get_by_role("region", name="Supply switches").count() == 0
    )


def test_every_working_of_a_setting_opens(visit):
    page = visit(KINDER)
    buttons = page.get_by_role("button", name="Show the working")
    expect(buttons).not_to_have_count(0)
    while buttons.count():
        buttons.first.tap()
    assert page.get_by_text("The working could not be shown").count() == 0
    panels = page.locator(".rf-finding", has=page.locator(".rf-working__number"))
    for panel in panels.all():
        above, below = (
            panel.locator(one).inner_text() for one in (".rf-finding__number strong", ".rf-working__number")
        )
        assert (re.match("(below|under) −120 dB", above) and below.startswith("under −120 dB")) or re.split(
            r"(?:\.0)? ", above, maxsplit=1
        ) == re.split(r"(?:\.0)? ", below.split(";")[0], maxsplit=1)
