"""The downloaded bundle, unpacked and opened from the disc: everything answers without a server."""

import re
from zipfile import ZipFile

import pytest
from answers import CHAINS, address, expected, shown
from conftest import PATIENCE
from playwright.sync_api import expect

from generator.site import folder

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def disc(site, tmp_path_factory):
    """The address of the unpacked folder, with a slash at its end."""
    place = tmp_path_factory.mktemp("disc")
    folder.write(site.folder, place / "ringfence.zip")
    with ZipFile(place / "ringfence.zip") as archive:
        archive.extractall(place / "a folder & more")
    return (place / "a folder & more" / "ringfence").as_uri() + "/"


@pytest.fixture
def page(browser, disc):
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True)
    context.set_default_timeout(PATIENCE)
    page, wrong = context.new_page(), []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda said: said.type == "error" and wrong.append(said.text))
    # aborted: the page was left
    page.on(
        "requestfailed", lambda request: request.failure == "net::ERR_ABORTED" or wrong.append(request.url)
    )
    yield page
    context.close()
    assert wrong == []


@pytest.mark.parametrize("kind", CHAINS)
def test_the_check_answers_and_shows_its_working(page, disc, catalogue, kind):
    page.goto(disc + address(*CHAINS[kind]).replace("check/", "check/index.html"))
    assert shown(page) == expected(catalogue, *CHAINS[kind])
    page.get_by_role("button", name="Show the working").first.click()
    expect(page.locator(".rf-working__panel").first).to_contain_text("The case")
    assert page.workers == [], "a page from a disc may start none, and judges itself"


def test_three_taps_lead_to_a_verdict(page, disc):
    page.goto(f"{disc}index.html")
    start, (lead,), into = CHAINS["safe"]
    for end in (start, into):
        page.locator(f'.rf-option[data-id="{end}"]').tap()
    page.locator(f'.rf-way[data-through="{lead}"]').first.tap()
    expect(page.locator(".rf-banner[data-verdict=safe]")).to_be_visible()


@pytest.mark.parametrize(
    "start, link, arrives",
    [
        ("index.html", ".md-nav--primary a[href*='leads']", "leads/index.html"),
        ("leads/index.html", ".rf-list a >> nth=0", r"leads/[^/]+/index.html"),
        ("ports/mixer-line-in-xlr/index.html", "a.rf-row >> nth=0", r"check/index.html#from="),
        ("matrix/index.html", "a[href*='ports/'] >> nth=-1", r"ports/.*index.html"),
    ],
)
def test_links_lead_on_and_not_to_a_list_of_files(page, disc, start, link, arrives):
    page.goto(disc + start)
    page.locator(link).first.dispatch_event("click")
    page.wait_for_url(re.compile(re.escape(disc) + arrives))
    expect(page.locator("h1")).to_be_visible()


def test_a_link_needs_no_script_to_lead_on(browser, disc):
    page = browser.new_context(java_script_enabled=False).new_page()
    page.set_default_timeout(PATIENCE)
    page.goto(f"{disc}connectors/xlr-3/index.html")
    links = page.locator("a[href]").evaluate_all(
        "all => all.map((one) => one.href).filter((one) => one.startsWith('file:'))"
    )
    assert len(links) > 20 and [link for link in links if link.split("#")[0].endswith("/")] == []
    page.context.close()


@pytest.mark.parametrize(
    "name, shows",
    [
        ("bench", "#rf-bench svg, #rf-bench button"),
        ("recognise", "#rf-recognise button"),
        ("matrix", "#rf-matrix .rf-group"),
        ("bag", "#rf-bag .rf-picker__search"),
        ("cards", "#rf-cards input"),
        ("connectors/xlr-3", ".rf-figure svg"),
    ],
)
def test_every_tool_starts(page, disc, name, shows):
    page.goto(f"{disc}{name}/index.html")
    expect(page.locator(shows).first).to_be_visible()


def test_the_search_finds_and_leads_on(page, disc):
    page.goto(f"{disc}connectors/xlr-3/index.html")
    page.locator("label[for=__search]").first.tap()
    page.locator(".md-search__input").fill("guitar lead")
    page.locator(".md-search-result__item a").first.tap()
    page.wait_for_url(re.compile(re.escape(disc) + r"leads/[^/]+/index.html"))
