"""A lead of the bench with a name is a lead of the kit: kept, used where leads are used, removed; a store
that holds nonsense or refuses."""

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

WIRING = (
    "bench/#ends=xlr-3/female,xlr-3/male&joins=a.1_b.1,a.2_b.2,a.3_b.3&cable=mic-pair&length=7m&screen=a.1"
)


def kept(visit, name="Blue seven metres"):
    page = visit(WIRING)
    page.get_by_label("Name of this lead").fill(name)
    page.locator("[data-key='keep lead']").click()
    expect(page.locator(".rf-bench__kept")).to_contain_text(f"{name} is in your kit.")
    return page


def test_it_stands_in_the_kit_and_answers(visit):
    page = kept(visit)
    lead = page.locator(".rf-bench__kept a").last.get_attribute("href").split("through=")[1]
    page.goto("bag/")
    expect(page.locator(".rf-tick", has_text="Blue seven metres").locator("input")).to_be_checked()
    page.reload()
    expect(page.locator(".rf-tick", has_text="Blue seven metres").locator("input")).to_be_checked()
    page.goto(f"check/#from=mic-condenser-p48-xlr&through={lead}&into=mixer-mic-in-p48-xlr")
    expect(page.locator(".rf-answer__head")).to_have_text("Safe")
    expect(page.locator(".rf-chain")).to_contain_text("Blue seven metres, as wired on the bench")
    expect(page.locator(".rf-hum__both")).to_contain_text("you will hear no hum")
    assert page.locator(".rf-now").inner_text().startswith("This answer stays on this device"), (
        "no link that nobody else can open"
    )
    page.reload()
    expect(page.locator(".rf-answer__head")).to_have_text("Safe")


def test_it_is_removed(visit):
    page = kept(visit)
    page.goto("mine/")
    leads = page.locator(".rf-mine__leads")
    expect(leads).to_contain_text("Blue seven metres")
    leads.get_by_role("button", name="Remove Blue seven metres").click()
    expect(leads).to_contain_text("None yet.")
    page.goto("bag/")
    expect(page.locator(".rf-tick", has_text="XLR microphone lead, 3 m").first).to_be_visible()
    expect(page.locator(".rf-tick", has_text="Blue seven metres")).to_have_count(0)


def test_without_a_name_it_is_not_kept(visit):
    page = visit(WIRING)
    page.locator("[data-key='keep lead']").click()
    expect(page.locator(".rf-bench__keep .rf-fault")).to_have_text(
        "A lead needs a name, so that you find it again."
    )
    assert page.evaluate("localStorage.getItem('ringfence.own')") is None


def test_what_is_no_lead_any_more_is_inert(visit):
    page = visit("plugs/")
    page.evaluate("""localStorage.setItem('ringfence.own', JSON.stringify({ version: 1, devices: [], seen: {}, leads: [
      { id: "my.aaaa", name: "<img src=x onerror=window.pwned=1>", wiring: "#ends=xlr-3/female,nothing/male&joins=a.1_b.1" },
      { id: "__proto__", name: "x", wiring: "" }, 7, { id: "my.bbbb", name: "y", wiring: "#".repeat(9000) }] }))""")
    page.goto("mine/")
    expect(page.locator(".rf-mine__leads li")).to_have_count(1)
    expect(page.locator(".rf-mine__leads")).to_contain_text("not a whole lead any more")
    page.goto("check/#from=mic-dynamic-xlr&through=my.aaaa&into=mixer-mic-in-p48-xlr")
    expect(page.locator(".rf-unknown")).to_contain_text("my.aaaa")
    assert page.evaluate("window.pwned") is None
