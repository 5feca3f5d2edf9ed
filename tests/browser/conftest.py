"""One built site for all tests of a run, and a real Chromium with windows of the sizes people have.

RINGFENCE_SITE may name the folder of a site built from this very checkout (continuous integration tests what
it will publish); otherwise it is built here.
"""

import json
import os
from pathlib import Path

import chromium
import once
import pytest
from playwright.sync_api import Error, expect, sync_playwright

from served import served

PHONE = {"width": 390, "height": 844}
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
def site(request, tmp_path_factory):
    """The served site; `site.base` is its address."""
    if chromium.found() is None:
        pytest.skip("chromium not installed")
    given = os.environ.get("RINGFENCE_SITE")
    with served(
        Path(given).resolve()
        if given
        else once.site(request.getfixturevalue("catalogue"), once.common(tmp_path_factory))
    ) as site:
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
