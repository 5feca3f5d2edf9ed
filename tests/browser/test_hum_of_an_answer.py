"""Hum and length in the answer of the check: what two lengths do, switches that tell another, and the same
sentence under what is said of balance."""

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

BALANCED = "check/#from=mic-dynamic-xlr&through=xlr-f-to-xlr-m-20m&into=mixer-mic-in-p48-xlr"


def test_length_and_what_lies_beside_are_switches(visit):
    page = visit(BALANCED)
    section, says = page.locator("section.rf-hum"), page.locator(".rf-hum__both")
    expect(says).to_have_text(
        "On 3 m between these two you will hear no hum; on 30 m beside a dimmer you may hear hum."
    )
    page.locator(".rf-hum-fold > summary").click()
    expect(section.locator("p").first).to_have_text(
        "On 3 m between these two you will hear no hum; on 30 m beside a dimmer you may hear hum. "
        "That is with a battery at one end and earthed mains at the other; other powering may hum more."
    )
    expect(section.locator(".rf-hum__head")).to_have_text("You will not hear it.")
    section.locator("select").first.select_option("30")
    section.locator("select").last.select_option("dimmer")
    expect(section.locator(".rf-hum__head")).to_contain_text("At worst")
    expect(says).to_have_text("As you set it: on 30 m beside a dimmer feeder 10 cm away, you may hear hum.")
    expect(section.locator("li").filter(has_text="dB").first).to_be_visible()
    expect(section.locator(".rf-hum__plot polyline")).to_have_count(3)
    assert "beside=round-feeder,dimmer-rack" in section.get_by_role("link").first.get_attribute("href")


def test_a_danger_and_a_plug_without_a_lead_have_none(visit):
    page = visit("check/#from=mic-dynamic-xlr&through=&into=plug-on-transmitter-in-p48-xlr")
    expect(page.locator(".rf-answer__head")).to_be_visible()
    expect(page.locator(".rf-hum-fold")).to_have_count(0)


def test_a_pad_says_that_it_is_not_worked_out(visit):
    page = visit(
        "check/#from=line-out-phantom-protected-xlr&through=xlr-f-to-xlr-m-pad-40-db&into=camera-mic-in-p48-xlr"
    )
    fold = page.locator(".rf-hum-fold")
    expect(fold.locator(".rf-hum__both")).to_have_text("not worked out for this one")
    fold.locator("summary").click()
    expect(fold.locator(".rf-hum")).to_contain_text("a pad lies between")


def test_the_finding_about_balance_tells_it_too_and_keeps_it(visit, table):
    row = next(
        row
        for row in table
        if "unbalanced" in row["findings"]
        and row["verdict"] == "lossy"
        and len(row["through"]) == 1
        and row["from"] == "player-line-out-rca"
    )
    page = visit(f"check/#from={row['from']}&through={row['through'][0]}&into={row['into']}")
    told = page.locator('.rf-finding[data-finding="unbalanced"] .rf-hum__finding')
    expect(told.first).to_contain_text("30 m beside a dimmer")
    page.locator(".rf-hum-fold > summary").click()
    page.locator("section.rf-hum select").first.select_option("100")
    expect(told.first).to_contain_text("As you set it: on 100 m")


def test_the_verdict_says_from_which_length_it_hums_and_never_against_the_fold(visit):
    """What the table calls hum on long runs is told by its length, and as sure as the sum is,
    once the sum is made."""
    page = visit("check/#from=mic-dynamic-xlr&through=xlr-f-to-35-trs-both-capacitor&into=camera-mic-in-35")
    expect(page.locator(".rf-hum__both")).to_have_text(
        "Between these two you may hear hum, on 3 m as on 30 m beside a dimmer."
    )
    expect(page.locator(".rf-banner__means")).to_have_text(
        "Works, but: perhaps hum even on short runs (harmless)."
    )


def test_no_hum_crosses_light(visit):
    """Physics: no current crosses a fibre."""
    page = visit(
        "check/#from=optical-out-square&through=optical-square-to-optical-square-1m&into=optical-in-square"
    )
    expect(page.locator(".rf-hum__both")).to_have_text("none: light joins no metal")
    page.locator(".rf-hum-fold > summary").click()
    expect(page.locator(".rf-hum-fold p")).to_contain_text("No current crosses a fibre")
