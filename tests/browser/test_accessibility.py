"""axe-core finds nothing serious on any kind of page, light or dark. It finds perhaps half of what can be wrong; the rest is tested by hand elsewhere."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from kinds import KINDS, page_of

pytestmark = pytest.mark.browser

GRAVE = ("serious", "critical")


def grave(page, *rules: str) -> list[str]:
    """What axe-core holds to be serious or critical, a line each; by all its rules, or some."""
    options = {"resultTypes": ["violations"]} | ({"runOnly": rules} if rules else {})
    found = Axe().run(page, options=options).response["violations"]
    return [f"{one['id']} ({one['impact']}): {node['target']} {node['failureSummary']}"
            for one in found if one["impact"] in GRAVE for node in one["nodes"]]


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_grave(visit, catalogue, kind):
    """One visit for both colours: what differs between them is colour alone."""
    page = visit(page_of(kind, catalogue), bypass_csp=True)  # axe-core comes in as a script of our own making
    page.locator("main details").evaluate_all("all => all.slice(0, 6).forEach((one) => { one.open = true; })")
    assert page.locator("body").get_attribute("data-md-color-scheme") == "default"
    assert grave(page) == []
    page.emulate_media(color_scheme="dark", reduced_motion="reduce")  # colours on their way from light to dark are neither
    page.locator("body[data-md-color-scheme=slate]").wait_for()
    assert grave(page, "color-contrast", "link-in-text-block") == [], "in the dark"


def test_the_dialog_of_the_matrix(visit):
    page = visit("matrix/", bypass_csp=True)
    page.locator(".rf-group > summary").first.tap()
    page.locator(".rf-group .rf-row").first.tap()
    page.get_by_role("dialog", name="Ways between these two").wait_for()
    assert grave(page) == []


def test_a_grave_fault_is_seen(visit):
    page = visit("methods/", bypass_csp=True)
    page.evaluate("document.querySelector('main').append(document.createElement('input'))")
    page.evaluate("document.querySelector('main h1').style.color = '#cccccc'")
    assert {line.split()[0] for line in grave(page)} == {"label", "color-contrast"}
