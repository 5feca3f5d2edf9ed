"""The check as a person uses it: three taps to an answer, which is Python's; a link that gives it again; ways out that keep their promise."""

import re
from urllib.parse import urlsplit

import pytest
from answers import CHAINS, address, expected, shown
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


def pick(page, catalogue, start, through, into):
    """Choose by the names a person reads; every choice is one tap (a click where there is no touch screen)."""
    leads = [catalogue.leads[lead].name for lead in through] or ["None"]
    touch = page.evaluate("navigator.maxTouchPoints > 0")
    for name in (catalogue.ports[start].name, *leads, catalogue.ports[into].name):
        entry = page.locator(".rf-picker button", has=page.locator(".rf-option__name").get_by_text(name, exact=True))
        entry.tap() if touch else entry.click()


@pytest.mark.parametrize("verdict", CHAINS)
def test_three_taps_give_the_answer_of_python(visit, catalogue, size, verdict):
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
    banner = page.locator(".rf-banner")
    slug = verdict.replace(" ", "-")
    assert banner.locator("use").get_attribute("href") == f"#mark-{slug}"
    drawn = banner.locator("svg.rf-mark").bounding_box()
    assert min(drawn["width"], drawn["height"]) >= 24
    assert page.locator(f"#mark-{slug} > *").count() >= 1, "the shape is drawn"
    assert len({page.locator(f"#mark-{name.replace(' ', '-')}").inner_html() for name in CHAINS}) == len(CHAINS), "every verdict has its own"
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
        expect(page.locator(".rf-remedies")).to_contain_text("No single lead in this catalogue does better between these two.")
        return
    for way in range(ways.count()):
        promised = ways.nth(way).locator(".rf-verdict").inner_text()
        target = ways.nth(way).evaluate("link => link.hash")
        ways.nth(way).tap()
        expect(page.locator(".rf-banner")).to_have_attribute("data-verdict", promised)
        start, through, into = re.fullmatch(r"#from=(.*)&through=(.*)&into=(.*)", target).groups()
        assert shown(page) == expected(catalogue, start, [lead for lead in through.split(",") if lead], into)
        page.go_back()
        expect(page.locator(".rf-banner")).to_have_attribute("data-verdict", before.verdict)
    assert shown(page) == before


def test_no_supply_is_switched_on_without_need(visit, catalogue):
    """A ribbon microphone on a splitter is as safe with both supplies off as with both on; the advice is off."""
    chain = "mic-ribbon-xlr", ("xlr-f-to-two-xlr-m",), "mixer-mic-in-p48-xlr"
    page = visit(address(*chain))
    ends = {words: verdict for words, verdict in shown(page).settings}
    both_off = next(words for words in ends if words.count(" off") == 2)
    assert ends[both_off] == "safe" and sorted(ends.values()).count("safe") > 1
    words = both_off[0].lower() + both_off[1:]
    expect(page.locator(".rf-switch")).to_have_text(f"Before plugging, set {words}: then it is safe.")


def test_back_takes_back_one_choice_at_a_time(visit, catalogue):
    page = visit("check/")
    pick(page, catalogue, *CHAINS["safe"])
    shown(page)
    for question in ("What do you plug into?", "Which lead or adapter?", "What do you plug from?"):
        page.go_back()
        expect(page.get_by_role("heading", name=question)).to_be_visible()
    for _ in range(3):
        page.go_forward()
    assert shown(page) == expected(catalogue, *CHAINS["safe"])


def test_one_part_of_the_question_can_be_changed(visit, catalogue):
    page = visit(address(*CHAINS["safe"]))
    page.locator(".rf-step__open[data-step=through]").tap()
    page.get_by_role("searchbox").fill("polarity")
    lead = page.locator(".rf-picker__list .rf-option").first
    name = lead.locator(".rf-option__name").inner_text()
    lead.tap()
    chosen = next(one.id for one in catalogue.leads.values() if one.name == name)
    start, _, into = CHAINS["safe"]
    expect(page).to_have_url(re.compile(f"through={chosen}&"))
    assert shown(page) == expected(catalogue, start, [chosen], into)


def test_the_list_says_what_it_hides_and_why(visit, catalogue):
    page = visit("check/#from=mic-dynamic-xlr")
    offered = page.locator(".rf-picker__list .rf-option").count()
    assert 0 < offered < len(catalogue.leads)
    page.locator(".rf-why summary").tap()
    reasons = page.locator(".rf-why li span")
    assert offered + reasons.count() == len(catalogue.leads)
    assert all(reason.startswith("Its ends are ") for reason in reasons.all_inner_texts())


def test_the_last_answer_is_one_tap_away(visit, catalogue):
    page = visit("check/")
    pick(page, catalogue, *CHAINS["dangerous"])
    shown(page)
    page.goto("check/#from=mic-dynamic-xlr")  # begun, and left
    page.goto("methods/")
    page.goto("check/")
    page.locator(".rf-again a").tap()
    assert shown(page) == expected(catalogue, *CHAINS["dangerous"])


def test_a_choice_begun_and_left_does_not_wipe_out_the_last_answer(visit, catalogue):
    page = visit(address(*CHAINS["safe"]))
    shown(page)
    page.get_by_role("link", name="New check").tap()
    page.locator(".rf-picker__list .rf-option").first.tap()
    page.goto("methods/")
    page.goto("check/")
    page.locator(".rf-again a").tap()
    assert shown(page) == expected(catalogue, *CHAINS["safe"])


def test_the_link_to_pass_on_is_the_address(visit, catalogue):
    page = visit(address(*CHAINS["lossy"]), permissions=["clipboard-read", "clipboard-write"])
    page.get_by_role("button", name="Copy link to this answer").tap()
    expect(page.get_by_role("button", name="Copied")).to_be_visible()
    assert page.evaluate("navigator.clipboard.readText()") == page.url
