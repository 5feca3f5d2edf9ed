"""Is this adapter the right one? Asked of it standing in a shop, by thumb."""

import re

import pytest
from chosen import CAMERA, MIC, fits_the_screen, options
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


ADAPTER = f"adapter/#ends=xlr-3/female,phone-35-trs/plug&from={MIC}&into={CAMERA}"


def test_an_adapter_in_a_shop(thumb):
    page = thumb("adapter/")
    page.locator(".rf-end[data-end='xlr-3/female']").tap()
    page.locator(".rf-end[data-end='phone-35-trs/plug']").tap()
    wirings = page.locator(".rf-way--plain")
    expect(wirings.first).to_be_visible()
    assert wirings.count() > 4
    for step, chosen in (("from", MIC), ("into", CAMERA)):
        page.locator(f".rf-slot[data-step={step}]").tap()
        options(page).locator(f"xpath=self::*[@data-id='{chosen}']").tap()
    expect(page).to_have_url(re.compile(re.escape(ADAPTER)))
    expect(page.locator(".rf-adapter__summary")).to_contain_text("wirings work here")
    expect(page.get_by_role("heading", name="Ask the seller")).to_be_visible()
    expect(page.get_by_role("heading", name="Measure when it arrives")).to_be_visible()
    assert page.locator(".rf-adapter__test").count() >= 2
    assert fits_the_screen(page)


def test_each_wiring_of_an_adapter_is_what_the_table_says(visit, table):
    page = visit(ADAPTER)
    page.locator(".rf-way--plain").first.wait_for()
    told = {
        tuple(row["through"]): row["verdict"] for row in table if (row["from"], row["into"]) == (MIC, CAMERA)
    }
    for wiring in page.locator(".rf-way--plain").all():
        assert wiring.locator(".rf-verdict").inner_text() == told.get(
            (wiring.get_attribute("data-lead"),), "does not fit"
        )


@pytest.mark.parametrize(
    "asked",
    [
        "#ends=nothing/plug",
        "#ends=__proto__/plug,xlr-3/female",
        "#from=<img src=x>",
        "#ends=xlr-3/female,xlr-3/female,xlr-3/female,xlr-3/female",
        "#%",
    ],
)
def test_an_adapter_that_is_none_ends_in_a_plain_sentence(visit, asked):
    page = visit(f"adapter/{asked}")
    expect(page.locator(".rf-slots")).to_be_visible()
    expect(page.locator(".rf-picker__title, .rf-adapter__none, .rf-answer__head").first).to_be_visible()
