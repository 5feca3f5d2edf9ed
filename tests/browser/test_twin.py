"""The engine made small, as it is published, in Chromium itself: a few pairings. All else about the two
engines is held by node's own test runner, tests/twin."""

import json

import chromium
import once
import pytest
from playwright.sync_api import sync_playwright
from twin import contract

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(chromium.found() is None, reason="chromium not installed"),
]

FEW = 5  # of every verdict
ASKED = """({cases, within}) => {
    window.Ringfence.powering = given.powering;
    const worst = {};
    const apart = cases.flatMap(({asked, says}) => differences(says,
      JSON.parse(JSON.stringify(Ringfence.engine.judge(given.data, given.rulebook, asked))), within, worst));
    return [apart, worst];
}"""


@pytest.fixture(scope="module")
def page(catalogue):
    """A blank page with the engine, the comparison, and what is judged by in `given`."""
    with sync_playwright() as playwright:
        browser = chromium.launched(playwright)
        page = browser.new_page()
        page.add_script_tag(content=contract.engine())
        page.add_script_tag(content=(contract.HERE / "agree.mjs").read_text("utf-8").replace("export ", ""))
        page.evaluate("text => { window.given = JSON.parse(text); }", json.dumps(contract.given(catalogue)))
        yield page
        browser.close()


@pytest.fixture(scope="module")
def few(catalogue):
    """The first of every verdict."""
    found = {}
    for one in once.judged(catalogue):
        found.setdefault(one["verdict"], []).append({"asked": contract.asked(once.pairing(one)), "says": one})
    assert set(found) == {"safe", "lossy", "no signal", "dangerous"}
    return [case for cases in found.values() for case in cases[:FEW]]


def test_chromium_says_what_python_says(page, few):
    apart, worst = page.evaluate(ASKED, {"cases": few, "within": contract.WITHIN})
    assert len(few) == 4 * FEW and apart == []
    assert worst, "numbers were compared"


def test_chromium_sees_a_difference(page, few):
    wrong = [few[0] | {"says": few[0]["says"] | {"verdict": "none"}}]
    [apart], _ = page.evaluate(ASKED, {"cases": wrong, "within": contract.WITHIN})
    assert apart.startswith('.verdict: Python has "none"')
