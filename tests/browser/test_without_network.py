"""After one visit the whole site answers without a network, and says that it does. How versions follow each
other: test_kept_whole.py."""

import json
import re

import pytest
from answers import CHAINS, address, expected, shown
from conftest import PATIENCE, becomes
from playwright.sync_api import expect
from served import served

pytestmark = pytest.mark.browser

KEPT = "Kept on this device: the check works without a network."
CLEARED = (
    " A browser may clear it when space runs short, or after weeks without a visit: look once before you "
    "leave."
)


@pytest.fixture
def own(site):
    """A server of the same folder which the test may stop, and a fresh one for every test: its own
    origin, its own store."""
    with served(site.folder) as server:
        yield server


@pytest.fixture
def page(browser, own):
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, base_url=own.base, service_workers="allow"
    )
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    page.thrown = []
    page.on("pageerror", lambda error: page.thrown.append(str(error)))
    yield page
    context.close()
    assert page.thrown == []


def kept(page):
    page.goto("check/")
    expect(page.locator("#rf-offline")).to_have_text(KEPT + CLEARED)
    becomes(page, "navigator.serviceWorker.controller !== null")


def test_the_check_the_matrix_and_pages_never_seen_open_without_a_network(page, own, catalogue):
    kept(page)
    own.stop()
    page.goto(address(*CHAINS["dangerous"]))
    page.reload()
    assert shown(page) == expected(catalogue, *CHAINS["dangerous"])
    drawn = page.locator(".rf-chain__piece img").evaluate_all("""all => Promise.all(all.map((one) => {
        one.loading = "eager"; return one.decode().then(() => one.naturalWidth > 0); }))""")
    assert drawn == [True, True, True], "the drawings are there too"
    page.goto("connectors/xlr-3/")
    page.reload()
    expect(page.get_by_role("heading", level=1)).to_contain_text("XLR")
    assert page.locator(".rf-figure svg").first.bounding_box()["height"] > 50
    page.goto("matrix/")
    expect(page.locator(".rf-group").nth(10)).to_be_attached()
    page.goto("")
    expect(page.get_by_role("heading", name="What have you got?")).to_be_visible()


def test_every_page_is_kept_as_it_was_built(page, own):
    """A page of each kind, out of the pack: byte for byte what the host would have sent."""
    kept(page)
    own.stop()
    for address in (
        "",
        "leads/xlr-f-to-xlr-m-3m/",
        "ports/mixer-line-in-xlr/",
        "assignments/xlr-3-balanced/",
        "guides/meter/",
        "draw/connector-xlr-3.svg",
    ):
        file = (
            own.folder / address / "index.html"
            if address.endswith("/") or not address
            else own.folder / address
        )
        assert (
            page.evaluate("(path) => fetch(path).then((answer) => answer.text())", own.base + address)
            == file.read_text()
        )
    page.goto("leads/")
    page.get_by_role("link", name="XLR microphone lead, 3 m").first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text("XLR microphone lead, 3 m")


def test_a_store_that_the_browser_promised_to_keep_is_told_as_such(page):
    page.add_init_script("navigator.storage.persisted = async () => true;")
    page.goto("check/")
    expect(page.locator("#rf-offline")).to_have_text(KEPT)


def test_the_search_finds_without_a_network(page, own):
    kept(page)
    own.stop()
    page.goto("leads/")
    page.locator("label[for=__search]").first.click()
    page.locator(".md-search__input").fill("lavalier")
    expect(page.locator(".md-search-result__item").first).to_be_visible(timeout=30_000)


def test_a_phone_is_not_filled_up(page, own):
    """10 MB for the whole site, as the browser counts the bodies in its store."""
    kept(page)
    stored = page.evaluate("""async () => {
        let bytes = 0;
        for (const name of await caches.keys()) for (const request of await (await caches.open(name)).keys())
            bytes += (await (await (await caches.open(name)).match(request)).blob()).size;
        return bytes; }""")
    assert 1_000_000 < stored <= 10_000_000


def test_what_is_not_there_is_not_made_up_without_a_network(page, own):
    kept(page)
    own.stop()
    with pytest.raises(Exception, match="ERR_"):
        page.goto("leads/no-such-lead/")


def test_an_incomplete_visit_is_not_called_kept(page, own):
    """One file of the list is missing: nothing is kept, and the page does not claim otherwise."""
    listed = (own.folder / "offline-list.js").read_text()
    files = json.loads(re.search(r"= (.*);", listed, re.DOTALL)[1])
    files["files"]["no-such-file.svg"] = files["files"]["manifest.webmanifest"]
    own.replaced["offline-list.js"] = f"self.OFFLINE = {json.dumps(files)};".encode()
    page.goto("check/")
    expect(page.locator("#rf-offline")).to_have_text(
        "Not kept for offline use: something could not be loaded."
    )
