"""The check as a person uses it: two taps to the ways, a lead of one's own to an answer, which is Python's; a
link that gives it again; ways out that keep their promise."""

import re
from urllib.parse import urlsplit

import pytest
from answers import CHAINS, address, expected, listed, shown
from chosen import pick
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("verdict", CHAINS)
def test_two_ends_and_a_lead_give_the_answer_of_python(visit, catalogue, size, verdict):
    page = visit("check/", size=size)
    pick(page, catalogue, *CHAINS[verdict])
    answer = shown(page)
    assert answer == expected(catalogue, *CHAINS[verdict])
    assert answer.verdict == verdict
    assert page.url.endswith(address(*CHAINS[verdict]))


def test_a_port_goes_straight_into_another(visit, catalogue):
    chain = "mic-dynamic-xlr", (), "mixer-mic-in-p48-xlr"
    page = visit()  # the front page is the check
    pick(page, catalogue, *chain)
    assert shown(page) == expected(catalogue, *chain)


@pytest.mark.parametrize("verdict", CHAINS)
def test_a_verdict_is_a_word_and_a_shape(visit, size, verdict):
    page = visit(address(*CHAINS[verdict]), size=size)
    banner = page.locator(".rf-banner[data-verdict]")
    slug = verdict.replace(" ", "-")
    assert banner.locator("use").get_attribute("href") == f"#mark-{slug}"
    drawn = banner.locator("svg.rf-mark").bounding_box()
    assert min(drawn["width"], drawn["height"]) >= 24
    assert page.locator(f"#mark-{slug} > *").count() >= 1, "the shape is drawn"
    assert len({page.locator(f"#mark-{name.replace(' ', '-')}").inner_html() for name in CHAINS}) == len(
        CHAINS
    ), "every verdict has its own"
    word = banner.locator("h2").bounding_box()
    assert word["y"] + word["height"] < size["height"], "the verdict stands above the fold"


@pytest.mark.parametrize("verdict", CHAINS)
def test_the_address_gives_the_same_answer_to_anyone(visit, catalogue, verdict):
    first = visit("check/")
    pick(first, catalogue, *CHAINS[verdict])
    told = shown(first)
    parts = urlsplit(first.url)
    assert shown(visit(f"{parts.path}#{parts.fragment}")) == told


def test_a_chain_that_does_not_fit_is_answered_too(visit, catalogue):
    chain = "mic-dynamic-xlr", ("xlr-f-to-xlr-m-3m",), "player-line-out-rca"
    if chain[2] not in catalogue.ports:
        chain = (*chain[:2], next(port.id for port in catalogue.ports.values() if port.connector == "rca"))
    answer = shown(visit(address(*chain)))
    assert (answer.verdict, answer.says) == ("does not fit", expected(catalogue, *chain).says)


@pytest.mark.parametrize("verdict", ["lossy", "no signal", "dangerous"])
def test_what_to_use_instead_leads_to_what_it_promised(visit, catalogue, verdict):
    page = visit(address(*CHAINS[verdict]))
    before = shown(page)
    ways = page.locator(".rf-remedies > ul a")
    if not ways.count():
        expect(page.locator(".rf-remedies")).to_contain_text(
            "No single lead in this catalogue does better between these two."
        )
        return
    for way in range(ways.count()):
        promised = ways.nth(way).locator(".rf-verdict").inner_text()
        target = ways.nth(way).evaluate("link => link.hash")
        ways.nth(way).tap()
        expect(page).to_have_url(re.compile(re.escape(target)))
        expect(page.locator(".rf-answer:not([aria-busy]) .rf-banner")).to_have_attribute(
            "data-verdict", promised
        )
        start, through, into = re.fullmatch(r"#from=(.*)&through=(.*)&into=(.*)", target).groups()
        assert shown(page) == expected(catalogue, start, [lead for lead in through.split(",") if lead], into)
        page.go_back()
        expect(page).not_to_have_url(re.compile(re.escape(target)))
        expect(page.locator(".rf-answer:not([aria-busy]) .rf-banner")).to_have_attribute(
            "data-verdict", before.verdict
        )
    assert shown(page) == before


def test_back_takes_back_one_choice_at_a_time(visit, catalogue):
    page = visit("check/")
    pick(page, catalogue, *CHAINS["safe"])
    shown(page)
    for question in ("Which lead?", "What does it go into?", "What have you got?"):
        page.go_back()
        expect(page.get_by_role("heading", name=question)).to_be_visible()
    for _ in range(3):
        page.go_forward()
    assert shown(page) == expected(catalogue, *CHAINS["safe"])


def test_one_part_of_the_question_can_be_changed(visit, catalogue):
    page = visit(address(*CHAINS["safe"]))
    page.locator(".rf-step__open[data-step=through]").tap()
    page.get_by_role("searchbox").fill("polarity")
    lead = listed(page).first
    name = lead.locator(".rf-option__name").inner_text()
    lead.tap()
    chosen = next(one.id for one in catalogue.leads.values() if one.name == name)
    start, _, into = CHAINS["safe"]
    expect(page).to_have_url(re.compile(f"through={chosen}&"))
    assert shown(page) == expected(catalogue, start, [chosen], into)


def test_the_link_to_pass_on_is_the_address(visit, catalogue):
    page = visit(address(*CHAINS["lossy"]), permissions=["clipboard-read", "clipboard-write"])
    page.get_by_role("button", name="Copy link to this answer").tap()
    expect(page.get_by_role("button", name="Copied")).to_be_visible()
    assert page.evaluate("navigator.clipboard.readText()") == page.url
