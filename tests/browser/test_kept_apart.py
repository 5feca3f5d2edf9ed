"""Parts of a page that do not belong together judge nothing: a failing server, two versions, no data."""

import pytest
from conftest import becomes
from editions import CHECK, answered, edition, heals, keep, one_version, updated
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("status", [404, 500, 503])
def test_a_server_that_fails_changes_nothing_and_heals(phone, host, built, status):
    page = phone.open(CHECK)
    keep(page)
    host.publish("B")
    host.refused["*"] = status
    updated(page)
    assert answered(page) == "safe" and one_version(page) == edition(built["A"])
    del host.refused["*"]
    host.refused["assets/js/data.js"] = status
    updated(page)
    assert answered(page) == "safe" and one_version(page) == edition(built["A"])
    host.refused.clear()
    page.close()
    heals(phone, built)


def test_a_page_of_two_versions_judges_nothing(phone, host, built):
    """No worker, half a deploy: the page is B's, a script is still A's."""
    host.publish("B", ["assets/js/data.js"])
    page = phone.new_page()
    page.add_init_script("delete Navigator.prototype.serviceWorker;")
    page.goto(CHECK)
    # it has tried once more by itself
    becomes(page, "performance.getEntriesByType('navigation')[0].type === 'reload'")
    expect(page.locator(".rf-banner")).to_contain_text("Not worked out")
    expect(page.locator(".rf-banner")).to_contain_text("put together from two versions of the site")
    expect(page.locator(".rf-standing__loud").first).to_be_visible()
    page.goto("matrix/")
    expect(page.locator("#rf-matrix")).to_contain_text("it shows no verdicts")
    assert page.locator("[data-verdict]").count() == 0


def test_a_page_that_was_overtaken_while_it_loaded_loads_itself_anew(phone, host, built):
    """The page is B's, and the first answer for one of its scripts still A's."""
    host.publish("B")
    page, asked = phone.new_page(), []

    def first_old(route):
        asked.append(route.request.url)
        route.fulfill(path=built["A"] / "assets/js/data.js") if len(asked) == 1 else route.continue_()

    page.add_init_script("delete Navigator.prototype.serviceWorker;")
    page.route("**/assets/js/data.js", first_old)
    page.goto(CHECK)
    expect(page.locator(".rf-banner")).to_have_attribute("data-verdict", "safe")
    assert one_version(page) == edition(built["B"]) and len(asked) > 1
    assert page.locator(".rf-standing__loud").count() == 0


def test_a_page_whose_data_did_not_load_says_so_and_begins_anew(phone, host):
    """A phone at the edge of the network."""
    host.refused["assets/js/data.js"] = 503
    page = phone.open(CHECK)
    told = page.locator(".rf-standing__loud").first
    expect(told).to_contain_text("A part of this page did not load, so nothing on it is worked out.")
    host.refused.clear()
    told.get_by_role("button", name="Load it again").click()
    expect(page.locator(".rf-banner")).to_be_visible()
    expect(page.locator(".rf-standing__loud")).to_have_count(0)


def test_without_the_table_the_answer_says_what_it_lacks(phone, host):
    host.refused["assets/js/table.js"] = 404
    page = phone.open(CHECK)
    expect(page.locator(".rf-answer")).to_contain_text(
        "Worked out here only: the table this answer is held against did not load."
    )
    host.refused.clear()
    page.reload()
    expect(page.locator(".rf-banner")).to_be_visible()
    expect(page.locator(".rf-answer")).not_to_contain_text("Worked out here only")
