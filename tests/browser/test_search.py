"""The search finds records by what people call things. The words are trade talk, from memory; each leads to a
page of the kind a person means."""

import json
import re

import pytest
from conftest import DESK
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

MEANT = {
    "mini jack": "3.5 mm",
    "quarter inch": "6.35 mm",
    "aux": "3.5 mm|Stereo",
    "phono": "RCA",
    "trs": "TRS",
    "trrs": "TRRS",
    "ta4": "(?i)mini-XLR",
    "three-pin xlr": "XLR",
    "mic cable": "(?i)microphone lead",
    "guitar lead": "(?i)6.35 mm TS",
    "timecode lead": "timecode",
    "bias": "bias|plug-in power",
    "plug power": "(?i)plug-in power",
    "phantom": "phantom",
    "t-power": "T-power",
    "lavalier": "(?i)lav",
    "lav": "(?i)lav",
    "shotgun": "(?i)microphone",
    "di box": "DI box",
    "pad": "pad|attenuator",
    "attenuator": "(?i)attenuator",
    "headphone splitter": "(?i)splitter",
    "y lead": "(?i)Y lead|splitter|two",
    "hum eliminator": "(?i)transformer|isolat",
    "ifb": "(?i)earpiece|headphone",
    "press box": "(?i)feed",
    "laptop": "(?i)computer|laptop|3.5 mm|barrel",
    "dmx": "(?i)lighting",
    "snake": "(?i)loom|D-sub|modular|snake",
    "midi": "MIDI",
    "headset adapter": "(?i)headset",
}
UNMEANT = {"Sources", "State of the data", "How far the catalogue reaches"}  # pages about pages


@pytest.fixture(scope="module")
def field(browser, site):
    """The search field of a page, touched and ready."""
    context = browser.new_context(viewport=DESK, base_url=site.base, service_workers="block")
    page = context.new_page()
    page.goto("leads/")
    field = page.locator(".md-search__input")
    field.click()
    expect(page.locator(".md-search-result__meta")).to_have_text("Type to start searching", timeout=60_000)
    yield field
    context.close()


@pytest.fixture(scope="module")
def found(field):
    """found(words): the titles of the first five pages, in order."""
    page = field.page

    def search(words):
        """Every letter is searched for, one after the other; the answer to the last stands when
        nothing changes any more."""
        field.fill("")
        field.press_sequentially(words, delay=5)
        before, same = None, 0
        while same < 4:
            page.wait_for_timeout(500)
            titles = [
                title.strip() for title in page.locator(".md-search-result__item h1").all_inner_texts()[:5]
            ]
            same, before = same + 1 if titles == before else 0, titles
        return titles

    return search


@pytest.mark.parametrize("words", MEANT)
def test_the_search_finds_what_people_call_it(found, words):
    titles = found(words)
    assert any(re.search(MEANT[words], title) and title not in UNMEANT for title in titles[:3]), titles


def test_what_is_pasted_is_searched_for_too(field):
    """And what is dictated or swiped: no key is pressed for it."""
    field.fill("")
    expect(field.page.locator(".md-search-result__meta")).to_have_text("Type to start searching")
    expect(field.page.locator(".md-search-result__item")).to_have_count(0)
    field.evaluate(
        "field => { field.value = 'lavalier'; field.dispatchEvent(new InputEvent('input', {inputType: "
        "'insertFromPaste', bubbles: true})); }"
    )
    expect(field.page.locator(".md-search-result__item").first).to_be_visible()


def test_the_themes_own_index_is_empty(site):
    """Nothing reads it: the search is our own. Made of all pages it would take longer than they do."""
    assert json.loads((site.folder / "search/search_index.json").read_text())["docs"] == []
