"""The lists one chooses from: what they hide and say, what stands first, what typing finds."""

import re

import pytest
from answers import CHAINS, address, expected, listed, shown
from chosen import pick, with_leads_open
from conftest import until
from playwright.sync_api import expect

from generator.engine import judge

pytestmark = pytest.mark.browser


def test_the_list_says_what_it_hides_and_why(visit, catalogue):
    page = with_leads_open(visit, "mic-dynamic-xlr")
    offered = listed(page).count()
    assert 0 < offered < len(catalogue.leads)
    page.locator(".rf-why summary").tap()
    reasons = page.locator(".rf-why li span")
    expect(reasons).to_have_count(len(catalogue.leads) - offered)
    assert all(reason.startswith("Its ends are ") for reason in reasons.all_inner_texts())


def test_a_list_grows_only_at_its_end(visit, catalogue):
    """What a thumb is aiming at stays where it is: rows come below what is there, and what stands
    under the list comes last."""
    page = visit("methods/")
    page.add_init_script(
        "window.held = []; window.frame = requestAnimationFrame; "
        "window.requestAnimationFrame = (work) => held.push(work)"
    )
    page.goto("check/#from=mic-dynamic-xlr")
    growing = page.locator(".rf-picker__list[aria-busy] .rf-option")
    growing.first.wait_for()
    tops = "all => all.map((one) => [one.dataset.id, one.getBoundingClientRect().top + scrollY])"
    before = growing.evaluate_all(tops)
    assert 0 < len(before) and page.locator(".rf-why").count() == 0
    page.evaluate("window.requestAnimationFrame = frame; held.forEach((work) => frame(work))")
    page.locator(".rf-why").wait_for()
    after = listed(page).evaluate_all(tops)
    assert after[: len(before)] == before and len(after) > len(before)


def test_no_row_of_a_list_stands_without_its_verdict(visit, catalogue):
    """With a lead and an inlet chosen each outlet is told by its verdict: also the first, where the
    table of them comes late."""
    _, through, into = CHAINS["safe"]
    page = visit("methods/")
    held = []
    page.route("**/assets/js/table.js", lambda asked: held.append(asked))
    page.goto(f"check/#through={through[0]}&into={into}", wait_until="commit")
    until(page, lambda: held)
    page.wait_for_timeout(500)
    assert page.locator(".rf-option").count() == 0
    held[0].continue_()
    told = dict(
        listed(page).evaluate_all(
            "all => all.map((one) => [one.dataset.id, one.querySelector('.rf-verdict')?.innerText])"
        )
    )
    known = {outlet: judge(catalogue, outlet, through, into).verdict for outlet in told}
    assert len(set(known.values())) > 2
    assert told == {
        outlet: None if verdict == "does not fit" else verdict for outlet, verdict in known.items()
    }


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


@pytest.mark.parametrize(
    "typed, found",
    [
        ("lav", "mic-lavalier-two-wire-35"),
        ("3.5mm", "player-line-out-35"),
        ("minijack", "player-line-out-35"),
        ("radio mic", "wireless-receiver-out-xlr"),
        ("laptop", "computer-headphone-out-35"),
        ("comms", "party-line-supply-xlr"),
        ("P48 condenser", "mic-condenser-p48-xlr"),
    ],
)
def test_a_trade_word_finds_the_device(visit, typed, found):
    """Words of the trade, from memory."""
    page = visit("check/")
    page.get_by_role("searchbox").fill(typed)
    expect(page.locator(f'.rf-picker__list .rf-option[data-id="{found}"]')).to_be_visible()
    takes = page.locator(".rf-picker__group", has_text="Only takes, sends nothing").locator(".rf-option")
    assert 0 < listed(page).count() - takes.count() < 40


def test_a_search_for_what_does_not_fit_says_why(visit):
    page = visit("check/#from=mic-dynamic-xlr&through=xlr-f-to-xlr-m-3m")
    page.get_by_role("searchbox").fill("word clock")
    expect(page.locator(".rf-picker__none")).to_have_text(
        "Nothing that fits is called that. Below is what does not fit."
    )
    reason = page.locator(".rf-why li", has_text="Timecode input, BNC")
    expect(reason).to_contain_text("Its BNC jack does not go with XLR-3 male.")
    page.get_by_role("searchbox").fill("teapot")
    expect(page.locator(".rf-picker__none")).to_have_text(
        "Nothing here is called that. Brands are not kept here: say what kind of thing it is, or find it "
        "by its picture."
    )


@pytest.mark.parametrize("ends", ["continue_", "abort"])
def test_nothing_is_called_missing_before_the_search_is_here(visit, ends):
    """Other names come with the search: until it is here, or did not come, "lav mic" may yet be found."""
    page, held = visit("check/"), []
    page.route("**/seek.js", lambda route: held.append(route))
    page.get_by_role("searchbox").fill("teapot")
    expect(page.locator(".rf-picker__none")).to_have_text("One moment.")
    getattr(held[0], ends)()
    expect(page.locator(".rf-picker__none")).to_contain_text("Nothing here is called that.")
    # the browser tells what did not come
    page.wrong[:] = [wrong for wrong in page.wrong if not (ends == "abort" and "ERR_FAILED" in wrong)]


def test_one_tap_leaves_one_kind_of_device(visit, catalogue):
    page = visit("check/")
    chip = page.get_by_role("toolbar", name="Only this kind of device").get_by_role("button", name="Headset")
    chip.tap()
    ids = listed(page).evaluate_all("all => all.map((one) => one.dataset.id)")
    assert sorted(ids) == sorted(port.id for port in catalogue.ports.values() if port.device == "headset")
    chip.tap()
    expect(listed(page)).to_have_count(sum(bool(port.sources) for port in catalogue.ports.values()))


def test_every_choice_has_a_small_drawing_of_its_halves(visit, catalogue):
    page = with_leads_open(visit, "mic-dynamic-xlr")
    listed(page)
    drawn = page.locator(".rf-option--drawn").evaluate_all(
        "all => all.map((one) => [one.dataset.id, "
        "...[...one.querySelectorAll('img.rf-side')].map((drawn) => drawn.dataset.src)])"
    )
    assert drawn and all(
        len(pictures) == min(2, len(catalogue.leads[lead].ends)) for lead, *pictures in drawn
    )
    _, one, two = next(row for row in drawn if row[0] == "xlr-f-to-xlr-m-3m")
    assert one != two, "male and female are told apart"
    assert "NaN" not in str(drawn) and "Infinity" not in str(drawn)


def test_a_drawing_is_fetched_when_it_is_nearly_in_sight(visit):
    page = visit("check/")
    pictures = listed(page).locator("img.rf-side")
    first, last = pictures.first, pictures.last
    expect(first).to_have_js_property("complete", True)
    assert first.evaluate("(one) => one.naturalWidth")
    assert not last.get_attribute("src"), "it is many screens down"
    last.scroll_into_view_if_needed()
    expect(last).to_have_attribute("src", re.compile(r"draw/side-.*\.svg$"))
    page.wait_for_function("(one) => one.naturalWidth > 0", arg=last.element_handle())


@pytest.mark.parametrize(
    "outlet, lead",
    [
        ("mic-dynamic-xlr", "xlr-f-to-xlr-m-3m"),
        ("guitar-pickup-635", "phone-635-ts-to-635-ts-3m"),
        ("player-line-out-35", "phone-35-trs-to-35-trs"),
    ],
)
def test_the_lead_that_most_people_would_reach_for_stands_first(visit, outlet, lead):
    """Common practice: a plain cable with the same connector at both ends, before one
    that has to be warned of."""
    page = with_leads_open(visit, outlet)
    expect(page.locator(".rf-picker__list .rf-option").first).to_have_attribute("data-id", lead)


def test_what_was_chosen_last_time_stands_first(visit, catalogue):
    page = visit("check/")
    pick(page, catalogue, *CHAINS["lossy"])
    shown(page)
    page.goto("methods/")
    page.goto("check/")
    for step, chosen in (
        ("from", CHAINS["lossy"][0]),
        ("into", CHAINS["lossy"][2]),
        ("through", CHAINS["lossy"][1][0]),
    ):
        # both ends are chosen, and the ways are told; this is for who has a certain lead
        if step == "through":
            page.locator("[data-step=through]").tap()
        first = page.locator(".rf-picker__group").first
        expect(first.get_by_role("heading")).to_have_text("Last time")
        expect(first.locator(".rf-option")).to_have_attribute("data-id", chosen)
        first.locator(".rf-option").tap()
    assert shown(page) == expected(catalogue, *CHAINS["lossy"])
