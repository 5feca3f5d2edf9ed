"""axe-core finds nothing on any kind of page, light or dark. It finds perhaps half of what can be wrong; the
rest is tested by hand elsewhere."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from conftest import DESK, at_rest
from kinds import FRAMES, KINDS, page_of

pytestmark = pytest.mark.browser

COLOURS = ("color-contrast", "link-in-text-block")
ROWS = 20  # of one list or table that are looked at: those after them are made by the same template
THINNED = """(most) => document.querySelectorAll('main :is(ul, ol, tbody)').forEach((list) =>
  [...list.children].slice(most).forEach((row) => row.remove()))"""


def violations(page, *rules: str) -> list[str]:
    """What axe-core finds, a line each; by all its rules, or some."""
    page.evaluate(THINNED, ROWS)
    options = {"resultTypes": ["violations"]} | (
        {"runOnly": rules} if rules else {"rules": {"target-size": {"enabled": True}}}
    )
    found = Axe().run(page, options=options).response["violations"]
    return [
        f"{one['id']} ({one['impact']}): {node['target']} {node['failureSummary']}"
        for one in found
        for node in one["nodes"]
    ]


@pytest.mark.parametrize("kind", [*KINDS, *FRAMES])
def test_nothing_is_found(visit, site, catalogue, kind):
    """One visit for both colours and both sizes: what differs between the first is colour alone, between the
    second what is shown."""
    # axe-core comes in as a script of our own making
    page = visit(page_of(kind, catalogue), bypass_csp=True, reduced_motion="reduce")
    at_rest(page)
    page.locator("main details").evaluate_all("all => all.slice(0, 6).forEach((one) => { one.open = true; })")
    assert violations(page) == []
    page.emulate_media(color_scheme="dark", reduced_motion="reduce")
    assert violations(page, *COLOURS) == [], "in the dark"
    page.set_viewport_size(DESK)
    assert violations(page) == [], "on a desk, in the dark"


def test_the_dialog_of_the_matrix(visit):
    page = visit("matrix/", bypass_csp=True)
    page.locator(".rf-group > summary").first.tap()
    page.locator(".rf-group .rf-row").first.tap()
    page.get_by_role("dialog", name="Ways between these two").wait_for()
    assert violations(page) == []


def test_a_fault_is_seen(visit):
    page = visit("methods/", bypass_csp=True)
    page.evaluate("document.querySelector('main').append(document.createElement('input'))")
    page.evaluate("document.querySelector('main h1').style.color = '#cccccc'")
    page.evaluate(
        "document.querySelector('main').append(document.createElement('h6'), document.createElement('h2'))"
    )
    page.locator("main h6").evaluate("one => { one.textContent = 'Too deep'; }")
    assert {line.split()[0] for line in violations(page)} >= {"label", "color-contrast", "heading-order"}
