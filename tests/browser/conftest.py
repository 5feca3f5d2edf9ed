"""One built site for all tests of a run, and a real Chromium with windows of the sizes people have."""

import json
from contextlib import suppress

import chromium
import once
import pytest
import small
from playwright.sync_api import Error, TimeoutError, expect, sync_playwright
from served import served

PHONE = {"width": 390, "height": 844}
SMALL = {"width": 320, "height": 640}
DESK = {"width": 1280, "height": 900}
PATIENCE = 90_000  # ms; how long something that should appear may take on a busy machine

expect.set_options(timeout=PATIENCE)


def until(page, so):
    """Let a page go on until `so()`, for as long as PATIENCE; whether it came to that is
    for the caller to see."""
    for _ in range(PATIENCE // 50):
        if so():
            return
        page.wait_for_timeout(50)


def at_rest(page):
    """All that the page asked for has come. On a busy machine Playwright now and then loses count of an
    answer and waits for ever: after a third of PATIENCE nothing is under way any more."""
    with suppress(TimeoutError):
        page.wait_for_load_state("networkidle", timeout=PATIENCE / 3)


def becomes(page, expression):
    """Waits until a script's expression is true; asked from outside, for a page's policy forbids Playwright's
    own waiting inside it."""

    def so():
        try:
            return page.evaluate(expression)
        except Error:  # the page is just being loaded anew
            return False

    until(page, so)
    assert page.evaluate(expression), f"never came true: {expression}"


@pytest.fixture(scope="session")
def site(catalogue, tmp_path_factory):
    """The served site; `site.base` is its address."""
    if chromium.found() is None:
        pytest.skip("chromium not installed")
    with served(once.site(catalogue, once.common(tmp_path_factory))) as site:
        yield site


@pytest.fixture(scope="session")
def table(site):
    """All judged connections as the site publishes them."""
    return json.loads((site.folder / "data/v1/verdicts.json").read_text())["verdicts"]


# not the session: two of them cannot run at once, and the twin's test starts its own
@pytest.fixture(scope="module")
def browser(site):
    with sync_playwright() as playwright:
        launched = chromium.launched(playwright)
        yield launched
        launched.close()


class Watched(list):
    """What went wrong on a page: error messages, exceptions, answers of 400 and more,
    requests to anyone else."""

    def __init__(self, page, base):
        super().__init__()
        page.on("console", lambda said: said.type == "error" and self.append(f"console: {said.text}"))
        page.on("pageerror", lambda error: self.append(f"exception: {error}"))
        page.on(
            "request",
            lambda asked: (
                asked.url.startswith((base, "data:", "blob:")) or self.append(f"request to {asked.url}")
            ),
        )
        page.on(
            "response",
            lambda answer: answer.status >= 400 and self.append(f"{answer.status} for {answer.url}"),
        )


@pytest.fixture
def visit(browser, site):
    """visit(address, **how): a page in a fresh profile, opened at an address of the site. `page.wrong` lists
    what went wrong; anything in it at the end fails the test."""
    pages = []

    def opened(address="", *, size=PHONE, **how):
        how = {"service_workers": "block", "has_touch": size is PHONE, **how}
        page = browser.new_context(viewport=size, base_url=site.base, **how).new_page()
        page.set_default_timeout(PATIENCE)
        page.wrong = Watched(page, site.base)
        pages.append(page)
        page.goto(address)
        return page

    yield opened
    for page in pages:
        page.context.close()
    assert [wrong for page in pages for wrong in page.wrong] == []


@pytest.fixture(params=[PHONE, DESK], ids=["phone", "desk"])
def size(request):
    return request.param


@pytest.fixture(scope="session")
def built(catalogue, tmp_path_factory):
    """The folders of edition A and edition B."""
    if chromium.found() is None:
        pytest.skip("chromium not installed")
    return {name: small.edition(catalogue, once.common(tmp_path_factory), name) for name in "AB"}


@pytest.fixture(scope="module")
def own_browser():
    """A Chromium of its own, for sites that are published by the test."""
    if chromium.found() is None:
        pytest.skip("chromium not installed")
    with sync_playwright() as playwright:
        launched = chromium.launched(playwright)
        yield launched
        launched.close()


@pytest.fixture
def host(built):
    """A server of edition A; `host.publish("B")` puts B in its place, but for the files named as late."""
    with served(built["A"]) as site:

        def publish(name, late=()):
            site.folder = built[name]
            site.replaced = {
                path.removesuffix("index.html"): (built["A"] / path).read_bytes() for path in late
            }

        site.publish = publish
        yield site


@pytest.fixture
def phone(own_browser, host):
    """A fresh profile; `phone.open(address)` opens a page of it."""
    context = own_browser.new_context(
        viewport={"width": 390, "height": 844}, base_url=host.base, service_workers="allow"
    )
    context.set_default_timeout(PATIENCE)
    context.thrown = []

    def opened(address="check/"):
        page = context.new_page()
        page.on("pageerror", lambda error: context.thrown.append(str(error)))
        page.goto(address)
        return page

    context.open = opened
    yield context
    context.close()
    assert context.thrown == []


@pytest.fixture(params=[PHONE, SMALL], ids=["390", "320"])
def thumb(request, visit):
    """thumb(address): a page under a thumb, at two sizes."""
    return lambda to="": visit(to, size=request.param, has_touch=True)
