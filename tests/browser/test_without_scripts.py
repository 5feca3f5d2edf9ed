"""Where scripts do not run, the record pages say everything: drawing, contacts, and how
every connection ends."""

import re

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

COUNTED = re.compile(r"(\d+) (?:leads? fits? and carr(?:y|ies) no|inlets? it fits without a) signal\.")


@pytest.fixture
def plain(visit):
    return lambda address: visit(address, java_script_enabled=False)


@pytest.mark.parametrize(
    "address",
    [
        "connectors/xlr-3/",
        "assignments/xlr-3-balanced/",
        "ports/mic-dynamic-xlr/",
        "leads/xlr-f-to-xlr-m-3m/",
    ],
)
def test_a_record_shows_its_drawing_and_its_contacts(plain, address):
    page = plain(address)
    drawing = page.locator(".rf-figure svg").first.bounding_box()
    assert drawing["width"] > 200 and drawing["height"] > 50
    for contact in ("1", "2", "3"):
        expect(page.locator(".rf-table").first).to_contain_text(contact)


@pytest.mark.parametrize(
    "kind, key, record",
    [
        ("ports", "from", "mic-dynamic-xlr"),
        ("ports", "into", "mixer-line-in-xlr"),
        ("leads", "through", "xlr-f-to-xlr-m-3m"),
    ],
)
def test_a_record_shows_how_every_connection_ends(plain, table, kind, key, record):
    page = plain(f"{kind}/{record}/")
    mine = (
        [row for row in table if record in row[key]]
        if key == "through"
        else [row for row in table if row[key] == record]
    )
    shown = page.locator(".rf-group .rf-row").evaluate_all(
        "all => all.map((one) => [one.hash, one.querySelector('.rf-verdict').textContent])"
    )
    links = {
        f"#from={row['from']}&through={','.join(row['through'])}&into={row['into']}": row["verdict"]
        for row in mine
    }
    telling = {link: verdict for link, verdict in links.items() if verdict != "no signal"}
    assert {hash: verdict for hash, verdict in shown if hash in links} == telling
    counted = [
        int(number)
        for number in COUNTED.findall(" ".join(page.locator(".rf-group__more").all_text_contents()))
    ]
    assert sum(counted) == len(links) - len(telling) > 0, "what carries no signal is counted, not listed"
    group = page.locator(".rf-group", has=page.locator(".rf-row")).first
    group.locator("summary").tap()
    expect(group.locator(".rf-row").first).to_be_visible()
    expect(group.locator(".rf-row .rf-mark").first).to_be_visible()


def test_the_check_says_what_it_needs_and_where_else_to_look(plain):
    page = plain("check/")
    expect(page.locator("#rf-check")).to_contain_text("The check needs scripts, and they are not running.")
    page.locator("#rf-check").get_by_role("link", name="ports").tap()
    expect(page).to_have_url(re.compile("/ports/$"))
    assert page.locator(".rf-list a").count() > 10
