"""A number of one's own, typed on the check."""

from answers import address
from playwright.sync_api import expect

CHAIN = "mic-electret-battery-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"
ASK = "from.main.highest-volts-at-output"
BY_OWN = f"{address(*CHAIN)}&own={ASK}:63_V"


def typed(page, number, ask=ASK):
    page.locator(f'[data-ask="{ask}"]').click()
    item = page.locator(f'[data-own="{ask}"]')
    item.locator("input").fill(number)
    item.locator("[data-key=judge]").click()


def head(page):
    return page.locator(".rf-answer__head")


def kept(visit, **how):
    page = visit(BY_OWN, **how)
    page.locator(".rf-own__keep input").fill("My reporter mic")
    page.locator("[data-key='keep from']").click()
    expect(page.locator(".rf-steps")).to_contain_text("My reporter mic")
    return page
