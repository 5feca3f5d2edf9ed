"""No page of any kind complains, asks anyone else for anything, runs what it should not, moves for those who
cannot bear it, or scrolls sideways."""

import gzip

import pytest
from answers import CHAINS, address
from conftest import at_rest, until
from kinds import KINDS, page_of

pytestmark = pytest.mark.browser

WIDTHS = [320, 390, 768, 1280]  # px: the narrowest of WCAG 2.2, 1.4.10 Reflow; a phone; a tablet; a desk


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_is_quiet_and_does_not_scroll_sideways(visit, catalogue, kind):
    """Errors, exceptions and requests to others fail in `visit`."""
    # what moves when the window changes is not measured on its way
    page = visit(page_of(kind, catalogue), reduced_motion="reduce")
    at_rest(page)
    page.locator("main details").evaluate_all("all => all.slice(0, 8).forEach((one) => { one.open = true; })")
    wide = {}
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 844})
        wide[width] = page.evaluate("document.documentElement.scrollWidth")
    assert wide == {width: width for width in WIDTHS}


STILL = [
    "check",
    "ways",
    "answer that loses",
    "adapter judged",
    "bench",
    "bag",
    "recognise",
    "cards chosen",
    "run that hums",
    "upkeep",
    "lesson",
    "test sat",
    "connector",
    "lead",
]


@pytest.mark.parametrize("kind", STILL)
def test_nothing_jumps_while_a_page_comes(visit, catalogue, kind):
    """On a slow network, where first the page is there, then its scripts, then what they ask for. A shift of
    0.1 is what the open Web Vitals call good."""
    page = visit("methods/")
    line = page.context.new_cdp_session(page)
    line.send(
        "Network.emulateNetworkConditions",
        {"offline": False, "latency": 150, "downloadThroughput": 400_000, "uploadThroughput": 90_000},
    )
    page.add_init_script("""window.shifts = 0; new PerformanceObserver((list) => {
        for (const one of list.getEntries()) shifts += one.value; })
        .observe({type: "layout-shift", buffered: true})""")
    page.goto(page_of(kind, catalogue))
    at_rest(page)
    page.wait_for_timeout(500)
    assert page.evaluate("shifts") < 0.1


@pytest.mark.parametrize("kind", ["answer that loses", "cards chosen", "lesson", "upkeep", "matrix"])
def test_room_kept_on_the_screen_takes_no_paper(visit, catalogue, kind):
    page = visit(page_of(kind, catalogue))
    at_rest(page)
    kept = (
        "[...document.querySelectorAll('.rf-check, "
        "#rf-matrix')].map((one) => getComputedStyle(one).minHeight)"
    )
    assert page.evaluate(kept) == ["844px"]
    page.emulate_media(media="print")
    assert page.evaluate(kept) in (["0px"], ["auto"])


@pytest.mark.parametrize(
    "address, limit",
    [("check/", 104_000), ("connectors/xlr-3/", 36_800), ("leads/xlr-f-to-xlr-m-3m/", 36_000)],
)
def test_a_first_visit_is_light(visit, site, address, limit):
    """What a page asks for before anything is touched, as a host sends it: gzip, without headers. Drawings
    are left out, for a browser fetches them the further ahead the slower it takes the network to be; they
    have the rest of 120 and 40 kB (tests/benchmarks/weight.py prints all parts)."""
    page = visit(address)
    at_rest(page)
    asked = {page.url, *page.evaluate("performance.getEntriesByType('resource').map(({ name }) => name)")}
    paths = [
        url.removeprefix(site.base)
        for url in asked
        if url.startswith(site.base) and not url.startswith(f"{site.base}draw/")
    ]
    files = [
        site.folder / path / "index.html" if path.endswith("/") else site.folder / path for path in paths
    ]
    assert {"site.css", "page.js", "index.html"} <= {file.name for file in files}
    assert sum(len(gzip.compress(file.read_bytes(), 9)) for file in files) <= limit


def test_what_is_not_there_is_said_so(visit, site):
    page = visit("ports/no-such-port/")
    at_rest(page)
    assert page.get_by_role("heading", name="404 - Not found").is_visible()
    assert page.wrong and all("404" in wrong for wrong in page.wrong)
    assert [wrong for wrong in page.wrong if not wrong.startswith("console")] == [
        f"404 for {site.base}ports/no-such-port/"
    ], "only the page itself is missing"
    page.wrong.clear()


def test_a_watched_page_tells_what_goes_wrong(visit, site):
    """The watch of all these tests sees an error, an exception, a missing file and a
    request to another host."""
    page = visit("methods/", bypass_csp=True)
    page.evaluate("""() => {
        console.error("spoken"); setTimeout(() => { throw new Error("thrown"); });
        return Promise.allSettled(["../no-such-file.json", "https://elsewhere.invalid/x"].map((one) =>
          fetch(one)));
    }""")

    def told():
        return sorted(line for line in page.wrong if not line.startswith("console: Failed to load"))

    until(page, lambda: len(told()) >= 4)
    found = told()
    page.wrong.clear()
    assert found == [
        f"404 for {site.base}no-such-file.json",
        "console: spoken",
        "exception: thrown",
        "request to https://elsewhere.invalid/x",
    ]


@pytest.mark.parametrize("kind", ["answer", "matrix", "port"])
def test_the_policy_of_a_page_stops_what_was_not_built_into_it(visit, catalogue, kind):
    """A script, a handler or a frame that found its way into a page does not run; the page's own work
    does (every other test)."""
    page = visit(page_of(kind, catalogue))
    page.evaluate("""() => {
        const script = document.createElement("script");
        script.textContent = "window.pwned = 'script'";
        document.body.append(script);
        const image = document.createElement("img");
        image.setAttribute("onerror", "window.pwned = 'handler'");
        image.src = "data:,";
        document.body.append(image);
    }""")
    page.wait_for_timeout(200)
    until(page, lambda: len(page.wrong) >= 2)
    assert page.evaluate("window.pwned") is None
    assert len(page.wrong) == 2 and all("Content Security Policy" in wrong for wrong in page.wrong)
    page.wrong.clear()


@pytest.mark.parametrize("kind", ["choosing a lead", "answer", "matrix", "port"])
def test_nothing_moves_for_those_who_ask_for_less_motion(visit, catalogue, kind):
    page = visit(page_of(kind, catalogue), reduced_motion="reduce")
    for summary in page.locator("main summary").all()[:4]:
        summary.tap()
    page.get_by_label("Search").first.focus()
    moving = page.evaluate("""() => [...document.querySelectorAll("*")].filter((one) => {
        const style = getComputedStyle(one);
        return style.animationName !== "none" || style.transitionDuration.split(", ").some((time) =>
          parseFloat(time) > 0) || style.scrollBehavior === "smooth";
    }).map((one) => one.outerHTML.slice(0, 80))""")
    assert moving == []
    assert page.evaluate("document.getAnimations().length") == 0


@pytest.mark.parametrize("colours, scheme", [("light", "default"), ("dark", "slate")])
def test_the_page_follows_the_colours_of_the_device(visit, colours, scheme):
    page = visit(address(*CHAINS["dangerous"]), color_scheme=colours)
    assert page.locator("body").get_attribute("data-md-color-scheme") == scheme
