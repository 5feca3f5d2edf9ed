"""Whatever stands in the address of the check is read as ids or not at all: it is told to be unknown, and
never runs, never judges."""

from urllib.parse import quote

import pytest
from answers import CHAINS, address, shown
from conftest import PATIENCE, until
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

START, THROUGH, INTO = CHAINS["dangerous"]
NAMES_NOTHING = {
    "markup": "<img src=x onerror=window.pwned=1>",
    "script": "<script>window.pwned=1</script>",
    "link": "javascript:window.pwned=1",
    "quotes": "\"'`><svg onload=window.pwned=1>",
    "template": "${window.pwned=1}{{constructor.constructor('window.pwned=1')()}}",
    "prototype": "__proto__",
    "inherited": "constructor",
    "path": "../../../etc/passwd",
    "nothing printable": "\x00\u202e\ud7ff\ufffd",
    "very long": "a" * 200_000,
    "unknown": "no-such-port",
    "capitals": START.upper(),
    "blank around": f" {START} ",
}
ELEMENTS = """[...document.querySelectorAll("img, script, svg, iframe, object, embed, style, base")]
    .filter((one) => !(one.src || "").startsWith(`${location.origin}/assets/js/`)).length"""  # the site's own scripts come when they are needed

CHANGED = """hash => new Promise((done) => {
    addEventListener("hashchange", () => done(), {once: true});  // after the page's own listener
    location.hash = hash;
})"""


def nothing_ran(page):
    page.wait_for_timeout(50)
    assert page.evaluate("[window.pwned, Object.prototype.pwned, ({}).from]") == [None, None, None]


@pytest.fixture(scope="module")
def shared(browser, site):
    """One profile for the many addresses of this module."""
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, base_url=site.base, service_workers="block"
    )
    context.set_default_timeout(PATIENCE)
    yield context
    context.close()


@pytest.fixture
def visiting(shared):
    page = shared.new_page()
    wrong = []
    page.on("console", lambda said: said.type == "error" and wrong.append(said.text))
    page.on("pageerror", lambda error: wrong.append(str(error)))
    yield page
    page.close()
    assert wrong == []


def ready(page):
    """The page has come to an end with what it lists: devices to choose, or the ways between two."""
    expect(page.locator(".rf-picker__list:not([aria-busy]), .rf-ways").first).to_be_visible()


def elements(page):
    """How many elements that could do something a page has, once no more come."""
    seen = []
    until(page, lambda: seen.append(page.evaluate(ELEMENTS)) or len(seen) > 9 and len(set(seen[-9:])) == 1)
    return seen[-1]


def fragment(place, text):
    question = {"from": START, "through": THROUGH[0], "into": INTO, place: text}
    return "#" + "&".join(f"{key}={quote(value, safe='')}" for key, value in question.items())


def refused(page, ordinary):
    """The page says that there is no such thing, at no great length, and has no more elements that could do
    something than `ordinary`."""
    told = page.get_by_role("alert")
    ready(page)
    expect(told).to_contain_text("there is no answer for this address")
    assert told.inner_text().startswith("Not found: ") and len(told.inner_text()) < 400
    assert page.locator(".rf-answer").count() == 0, (
        "of two ends and no known lead the ways are told, and nothing is judged"
    )
    assert elements(page) == ordinary
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    nothing_ran(page)


def ordinary(page, place):
    """How many elements that could do something a page has that was asked for a plain unknown id."""
    page.goto(f"check/{fragment(place, 'zzz')}")
    ready(page)
    return elements(page)


@pytest.mark.parametrize("text", NAMES_NOTHING.values(), ids=NAMES_NOTHING.keys())
def test_opened_with_what_names_nothing(visiting, text):
    known = ordinary(visiting, "from")
    visiting.goto("about:blank")
    visiting.goto(f"check/{fragment('from', text)}")
    refused(visiting, known)


@pytest.mark.parametrize("place", ["from", "through", "into"])
def test_changed_to_what_names_nothing(visiting, place):
    known = ordinary(visiting, place)
    for text in NAMES_NOTHING.values():
        visiting.evaluate(CHANGED, fragment(place, text))
        refused(visiting, known)


@pytest.mark.parametrize(
    "hash",
    [
        "#%",
        "#%E0%A4%A",
        "#from",
        "#=",
        "#&&&",
        "#from=&through=&into=",
        "#<img src=x onerror=window.pwned=1>",
        "#__search",
        "#__proto__[pwned]=1",
        "#from[]=1",
        "##",
        "#constructor=1&__proto__=1",
    ],
)
def test_what_is_no_question_begins_anew(visiting, hash):
    visiting.goto("about:blank")
    visiting.goto(f"check/{hash}")
    expect(visiting.get_by_role("heading", name="What have you got?")).to_be_visible()
    assert visiting.locator(".rf-banner").count() == 0
    nothing_ran(visiting)


def test_of_keys_given_twice_one_is_judged_and_shown(visiting, catalogue):
    """Whichever counts, the names above the answer are those of what was judged."""
    visiting.goto("about:blank")
    visiting.goto(f"{address(*CHAINS['safe'])}&from={START}&into=amplifier-out&through=x")
    assert shown(visiting).verdict == "safe"
    names = visiting.locator(".rf-step__name").all_inner_texts()
    start, (lead,), into = CHAINS["safe"]
    assert names == [catalogue.ports[start].name, catalogue.leads[lead].name, catalogue.ports[into].name]


def test_an_absurdly_long_chain_is_refused_and_does_not_hang_the_page(visiting):
    """Whoever follows such a link gets words at once, and no verdict."""
    start, (lead,), into = CHAINS["safe"]
    visiting.goto("about:blank")
    visiting.goto(address(start, [lead] * 1000, into))
    expect(visiting.get_by_role("alert")).to_contain_text(
        "Not found: 1000 leads in a row; 8 are the most that are worked out"
    )
    assert visiting.locator(".rf-answer").count() == 0


def test_the_longest_chain_is_judged(visiting):
    start, (lead,), into = CHAINS["safe"]
    visiting.goto("about:blank")
    visiting.goto(address(start, [lead] * 8, into))
    assert shown(visiting).verdict == "safe"
