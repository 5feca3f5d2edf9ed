"""The bench as a thumb uses it: ends, joins by tap and by meter, parts, live verdicts of every port that
fits, the name of a known lead, the link, the file."""

import re
import shutil

import pytest
from answers import shown
from playwright.sync_api import expect

from generator.catalogue import default_directory, load
from generator.engine import judge
from generator.engine.mate import fits

pytestmark = pytest.mark.browser

BALANCED = "bench/#ends=xlr-3/female,phone-35-trs/plug&joins=a.1_b.sleeve,a.2_b.tip,a.3_b.ring"
# the lead of the catalogue wired like that; it is made of cable, the bench's is not
KNOWN = "xlr-f-to-35-trs-balanced"


def take(page, end):
    page.locator(f'.rf-option[data-id="{end}"]').last.tap()


def contact(page, node):
    return page.locator(f'[data-key="contact {node}"]')


def join(page, *nodes):
    for node in nodes:
        contact(page, node).tap()


def worked_out(page):
    expect(page.get_by_text("all worked out here and now")).to_be_visible(timeout=60_000)


def test_the_next_question_comes_into_sight(visit):
    """Whoever picks the last of a long list must not be left at its end."""
    page = visit("bench/")
    for question, end in (
        ("Which plug or socket is at one end?", "xlr-3/male"),
        ("And at the other end?", "xlr-7/male"),
    ):
        expect(page.get_by_role("heading", name=question)).to_be_in_viewport()
        take(page, end)
    expect(page.get_by_text("Tap a contact, then the contact it is joined to.")).to_be_in_viewport()
    expect(page.locator("#rf-status")).to_have_text("XLR-7 male chosen")


def test_the_ends_of_most_leads_stand_first_and_out_of_the_way_of_a_search(visit):
    page = visit("bench/")
    first = page.locator(".rf-picker__group--first")
    expect(first.locator(".rf-option")).to_contain_text(["XLR-3", "XLR-3", "3.5 mm TRS"])
    page.get_by_role("searchbox", name="Search this list").fill("rca")
    expect(first).to_be_hidden()
    page.get_by_role("searchbox", name="Search this list").fill("")
    first.get_by_text("XLR-3 female", exact=True).tap()
    expect(page.get_by_role("heading", name="And at the other end?")).to_be_visible()


def test_a_lead_laid_by_taps_is_judged_with_every_port_that_fits(visit, catalogue):
    page = visit("bench/")
    take(page, "xlr-3/female")
    take(page, "phone-35-trs/plug")
    join(page, "a.1", "b.sleeve", "a.2", "b.tip", "a.3", "b.ring")
    expect(page).to_have_url(re.compile(re.escape(BALANCED) + "$"))
    expect(page.locator(".rf-match")).to_contain_text(catalogue.leads[KNOWN].name)
    worked_out(page)
    lead = catalogue.leads[KNOWN]
    plug, socket = (
        (catalogue.connectors[end.connector], end.half) for end in (lead.ends["a"], lead.ends["b"])
    )
    near, far = (
        [
            [
                port
                for port in catalogue.ports.values()
                if fits((catalogue.connectors[port.connector], port.half), half) and getattr(port, channels)
            ]
            for half in (plug, socket)
        ]
        for channels in ("sources", "listeners")
    )
    pairs = {(a.id, b.id) for a in near[0] for b in far[1]} | {(a.id, b.id) for a in near[1] for b in far[0]}
    assert len([pair for pair in pairs if pair[0] != pair[1]]) > 100
    expect(page.locator(".rf-progress")).to_have_text(
        f"{len([pair for pair in pairs if pair[0] != pair[1]])} connections, all worked out here and now."
    )


@pytest.mark.parametrize(
    "start, into", [("mic-dynamic-xlr", "camera-mic-in-35"), ("line-out-transformer-xlr", "camera-mic-in-35")]
)
def test_a_verdict_of_the_bench_is_pythons(visit, catalogue, start, into):
    """The same wiring as a file of the catalogue, judged by Python; the cable of the known lead
    is left out of neither."""
    lead = catalogue.leads[KNOWN]
    page = visit(f"{BALANCED}&cable={lead.cable}&length={lead.length:g}m&screen=a.1")
    page.locator('[data-key="only from"]').select_option(start)
    page.locator('[data-key="only into"]').select_option(into)
    worked_out(page)
    group = page.locator(".rf-verdicts > .rf-group:visible")
    assert (
        group.count() == 1
        and group.get_attribute("data-verdict") == judge(catalogue, start, (KNOWN,), into).verdict
    )


def test_taps_part_and_undo_goes_back(visit):
    page = visit(BALANCED)
    join(page, "a.2", "b.tip")
    expect(page).to_have_url(re.compile("joins=a.1_b.sleeve,a.3_b.ring$"))
    page.get_by_role("button", name="Undo").tap()
    expect(page).to_have_url(re.compile("joins=a.1_b.sleeve,a.2_b.tip,a.3_b.ring$"))


def test_a_contact_in_hand_moves_nothing_under_the_thumb(visit):
    page = visit("bench/#ends=xlr-3/female,phone-35-trs/plug")
    before = contact(page, "b.tip").bounding_box()
    contact(page, "a.2").tap()
    expect(contact(page, "a.2")).to_have_attribute("aria-pressed", "true")
    assert contact(page, "b.tip").bounding_box() == before


def test_meter_readings_join(visit):
    page = visit("bench/#ends=xlr-3/female,phone-35-trs/plug")
    page.get_by_text("Enter meter readings instead").tap()
    for pair in (
        "1 of XLR-3 female beeps to sleeve of 3.5 mm TRS plug",
        "2 of XLR-3 female beeps to tip of 3.5 mm TRS plug",
    ):
        page.get_by_role("button", name=pair).tap()
        expect(page.get_by_role("button", name=pair)).to_have_attribute("aria-pressed", "true")
    expect(page).to_have_url(re.compile("joins=a.1_b.sleeve,a.2_b.tip$"))


PARTS = {
    "resistor": (["a.2", "b.centre"], "4.7 kohm", "0.25 W"),
    "capacitor": (["a.2", "b.centre"], "10 uF", "63 V"),
    "transformer": (["a.2", "a.3", "b.centre", "b.shell"], "1:1", None),
}


@pytest.mark.parametrize("kind", PARTS)
def test_a_lead_with_a_part_gives_a_file_that_lints(visit, kind, tmp_path):
    nodes, value, rating = PARTS[kind]
    page = visit("bench/#ends=mini-xlr-3/female,rca/plug&joins=a.1_b.shell")  # few devices have these
    page.get_by_text("Parts inside: none").tap()
    page.locator('[data-key="part kind"]').select_option(kind)
    for number, node in enumerate(nodes):
        page.locator(f'[data-key="part node {number}"]').select_option(node)
    page.get_by_placeholder(
        "1:1" if kind == "transformer" else {"resistor": "4.7 kohm", "capacitor": "10 uF"}[kind]
    ).fill(value)
    if rating:
        page.get_by_placeholder(rating).fill(rating)
    page.get_by_role("button", name=f"Add the {kind}").tap()
    worked_out(page)
    page.get_by_text("Add this lead to the catalogue").tap()
    page.locator('[data-key="offer name"]').fill(f"Bench lead with a {kind}")
    path, text = (
        page.locator(".rf-offer__path code").inner_text(),
        page.locator(".rf-offer__text").inner_text(),
    )
    assert path == f"pinouts/leads/bench-lead-with-a-{kind}.yaml"
    copy = tmp_path / "pinouts"
    shutil.copytree(default_directory(), copy)
    (tmp_path / path).write_text(text)
    lead = load(copy).leads[f"bench-lead-with-a-{kind}"]  # raises on any fault
    assert {end.connector for end in lead.ends.values()} == {"mini-xlr-3", "rca"} and lead.parts


def test_a_link_carries_the_wiring(visit, catalogue):
    page = visit(BALANCED)
    page.get_by_text("Conductors: 3").tap()
    assert page.get_by_role("list", name="Conductors").get_by_role("listitem").count() == 3
    worked_out(page)
    group = page.locator(".rf-verdicts > .rf-group[data-verdict=safe]")
    group.locator("summary").first.tap()
    expect(group.locator(".rf-works > li").first).to_be_visible()
    other = visit(page.url)
    expect(other.locator(".rf-match")).to_contain_text(catalogue.leads[KNOWN].name)


def test_the_known_lead_leads_to_its_page(visit, catalogue):
    page = visit(BALANCED)
    page.locator(".rf-match a").first.tap()
    expect(page.get_by_role("heading", level=1)).to_have_text(catalogue.leads[KNOWN].name)


def test_a_third_end(visit):
    page = visit(BALANCED)
    page.get_by_role("button", name="Add a third end").tap()
    take(page, "rca/plug")
    expect(contact(page, "c.centre")).to_be_visible()
    join(page, "b.tip", "c.centre")
    expect(page).to_have_url(
        re.compile("ends=xlr-3/female,phone-35-trs/plug,rca/plug&joins=.*a.2_b.tip_c.centre")
    )


def test_better_leads_of_the_catalogue_open_the_check(visit):
    # crossed: a straight lead does better
    page = visit("bench/#ends=xlr-3/female,xlr-3/male&joins=a.1_b.1,a.2_b.3,a.3_b.2")
    page.locator('[data-key="only from"]').select_option("mic-dynamic-xlr")
    page.locator('[data-key="only into"]').select_option("mixer-mic-in-p48-xlr")
    worked_out(page)
    page.locator(".rf-verdicts > .rf-group:visible summary").first.tap()
    page.locator(".rf-works summary").first.tap()
    page.locator(".rf-instead a").tap()
    assert shown(page).verdict == "safe"


def test_names_of_contacts_and_ends_are_whole_on_the_narrowest_phone(visit):
    """320 px, WCAG 2.2, 1.4.10."""
    page = visit(BALANCED, size={"width": 320, "height": 700}, has_touch=True)
    cut = page.evaluate("""() =>
        [...document.querySelectorAll(".rf-contact, .rf-board__end")].filter((one) => {
        const range = document.createRange(); range.selectNodeContents(one);
        const lines = new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size;
        return one.scrollWidth > one.clientWidth || one.scrollHeight > one.clientHeight ||
          (one.matches(".rf-contact") && lines > 1);
    }).map((one) => one.textContent)""")
    assert cut == []
    board = page.locator(".rf-board")
    assert board.evaluate("one => one.scrollWidth - one.clientWidth") <= 0
