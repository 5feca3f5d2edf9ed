"""The tasks a newcomer comes with, by thumb at two sizes and by keys: which lead, a question in words, an
adapter in a shop, a plug nobody can name."""

import re

import pytest
from answers import CHAINS, address
from chosen import CAMERA, MIC, fits_the_screen, options
from conftest import DESK, until
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


def test_the_first_screen_says_what_this_is_and_has_both_slots_open(thumb):
    page = thumb()
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    expect(page.locator(".rf-check-head p")).to_contain_text("Works without a signal")
    for step in ("from", "into"):
        slot = page.locator(f".rf-step__open[data-step={step}]")
        expect(slot).to_be_enabled()
        assert slot.bounding_box()["y"] + slot.bounding_box()["height"] < page.viewport_size["height"]
    for door in ("What is this plug?", "Test a lead", "My kit"):
        expect(
            page.get_by_role("navigation", name="Other questions").get_by_role("link", name=door)
        ).to_have_count(1)
    assert fits_the_screen(page)


def test_two_taps_give_the_ways_best_first(thumb, table):
    """The commonest question: both things are among the common ones, so that two taps are enough."""
    page = thumb()
    options(page).locator("xpath=self::*[@data-id='mic-dynamic-xlr']").tap()
    expect(page.get_by_role("heading", name="What does it go into?")).to_be_focused()
    options(page).locator(f"xpath=self::*[@data-id='{CAMERA}']").tap()
    expect(page.locator(".rf-ways .rf-banner__says")).to_contain_text("Works")
    best = page.locator(".rf-way").first
    row = next(
        row
        for row in table
        if (row["from"], row["into"]) == (MIC, CAMERA)
        and ",".join(row["through"]) == best.get_attribute("data-through")
    )
    expect(best.locator(".rf-verdict")).to_have_text(row["verdict"])
    assert page.locator(".rf-way__loses").first.inner_text()
    assert fits_the_screen(page)
    best.tap()
    expect(page.locator(".rf-banner[data-verdict]")).to_have_attribute("data-verdict", row["verdict"])
    expect(page.locator(".rf-banner__best")).to_contain_text("the best lead there is")


def test_into_may_be_chosen_first(thumb):
    page = thumb()
    page.locator(".rf-step__open[data-step=into]").tap()
    options(page).locator(f"xpath=self::*[@data-id='{CAMERA}']").tap()
    expect(page.get_by_role("heading", name="What goes into it?")).to_be_visible()
    options(page).locator(f"xpath=self::*[@data-id='{MIC}']").tap()
    expect(page.get_by_role("heading", name="Which lead?")).to_be_visible()


def test_what_only_takes_may_be_what_one_has(thumb):
    """Who has a USB headset says so, whichever of the two the circuit is driven from."""
    page = thumb()
    page.get_by_role("searchbox").fill("usb headset")
    group = page.locator(".rf-picker__group", has_text="Only takes, sends nothing")
    expect(group.locator(".rf-option").first).to_be_visible()
    options(page).locator("xpath=self::*[@data-id='headset-usb-c-digital']").tap()
    expect(page.get_by_role("heading", name="What goes into it?")).to_be_visible()
    options(page).locator("xpath=self::*[@data-id='computer-usb-a']").tap()
    expect(page.get_by_role("heading", name="Which lead?")).to_be_visible()
    expect(page).to_have_url(re.compile("#from=computer-usb-a&into=headset-usb-c-digital$"))


def test_an_address_without_a_lead_is_the_list_and_never_a_misfit(thumb):
    page = thumb(f"check/#from={MIC}&into={CAMERA}")
    expect(page.get_by_role("heading", name="Which lead?")).to_be_visible()
    assert "does not fit" not in page.locator(".rf-ways").inner_text().lower()


@pytest.mark.parametrize(
    "words, start, into",
    [
        ("dynamic mic into camera mini jack", MIC, CAMERA),
        ("dymanic mic to mirrorless", MIC, CAMERA),
        ("condenser mic into recorder", "mic-condenser-p48-xlr", "recorder-mic-in-p48-combo"),
    ],
)
def test_one_field_understands_a_whole_question(thumb, words, start, into):
    page = thumb()
    page.locator("#rf-search").fill(words)
    page.locator(".rf-option--asked").tap()
    expect(page).to_have_url(re.compile(f"#from={start}&into={into}$"))
    expect(page.locator(".rf-ways")).to_be_visible()


def test_of_a_thing_with_several_inputs_one_is_asked_and_the_rest_is_filled_in(thumb):
    page = thumb()
    page.locator("#rf-search").fill("lav in recorder")
    page.locator(".rf-option--asked").tap()
    expect(page).to_have_url(re.compile("#from=mic-lavalier-two-wire-35$"))
    expect(page.locator("#rf-search")).to_have_value("recorder")
    expect(options(page).first).to_have_attribute("data-id", "recorder-mic-in-p48-combo")
    groups = page.locator(".rf-picker__group")
    expect(groups.last.get_by_role("heading")).to_have_text("Takes another kind of signal")
    other = groups.last.locator(".rf-option").evaluate_all("all => all.map((one) => one.dataset.id)")
    assert (
        "recorder-dc-in-xlr-4" in other
        and "receiver-dc-in-barrel" in other
        and not [id for id in other if "-mic-in-" in id]
    )


def test_what_is_not_certain_is_asked_for_with_its_words(thumb):
    page = thumb()
    page.locator("#rf-search").fill("xlr to 3.5")
    page.locator(".rf-option--asked").tap()
    expect(page.get_by_role("heading", name="What have you got?")).to_be_visible()
    expect(page.locator("#rf-search")).to_have_value("xlr")
    options(page).first.tap()
    expect(page.locator("#rf-search")).to_have_value("3.5")
    options(page).first.tap()
    expect(page.locator(".rf-ways")).to_be_visible()


def test_what_was_guessed_can_be_put_right_with_one_tap(thumb):
    page = thumb()
    page.locator("#rf-search").fill("condenser mic into recorder")
    page.locator(".rf-option--asked").tap()
    other = page.locator(".rf-guessed .rf-chip").first
    name = other.inner_text()
    other.tap()
    expect(page.locator(".rf-step__name", has_text=name).first).to_be_visible()


def test_where_no_single_lead_works_chains_are_looked_for_unasked(visit):
    page = visit("check/#from=guitar-pickup-635&into=mixer-mic-in-p48-xlr")
    found = page.locator(".rf-further .rf-way")
    expect(found.first).to_be_visible(timeout=120_000)
    assert "," in found.first.get_attribute("data-through")


def test_what_cannot_be_joined_is_answered_at_once(thumb):
    page = thumb("check/#from=lighting-data-out-xlr-5&into=mixer-line-in-xlr")
    expect(page.locator(".rf-banner__says")).to_contain_text("No lead turns one into the other.")
    assert page.locator(".rf-further").count() == 0


def test_two_that_send_nothing_are_told_as_such(visit):
    page = visit("check/#from=mixer-line-in-xlr&into=mixer-mic-in-p48-xlr")
    expect(page.locator(".rf-banner__says")).to_have_text(
        "The mixer line input sends nothing, nor does the mixer microphone input: nothing is heard, and "
        "phantom or another supply of one may harm the other."
    )


def test_a_question_by_keys_alone(visit):
    page = visit("", size=DESK)
    page.locator("#rf-search").focus()
    page.keyboard.type("dynamic mic into camera mini jack")
    expect(page.locator(".rf-option--asked")).to_be_visible()
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Which lead?")).to_be_focused()
    expect(page.locator("#rf-status")).to_contain_text("Works")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.classList.contains('rf-way')")
    page.keyboard.press("Enter")
    expect(page.locator(".rf-banner[data-verdict]")).to_be_visible()


def test_the_first_stop_of_the_keyboard_skips_to_the_content(visit):
    page = visit("", size=DESK)
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent").strip() == "Skip to content"
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('main') !== null")


def test_four_doors_at_the_bottom_and_nothing_hidden_in_the_way_of_tab(thumb):
    page = thumb("more/")
    bar = page.get_by_role("navigation", name="Main")
    assert [link.inner_text() for link in bar.get_by_role("link").all()] == [
        "Check",
        "What is it?",
        "My kit",
        "All pages",
    ]
    for link in bar.get_by_role("link").all():
        assert link.bounding_box()["height"] >= 44
    stops = page.evaluate(
        "[...document.querySelectorAll('.md-sidebar--primary a')].filter((one) => "
        "one.checkVisibility({visibilityProperty: true})).length"
    )
    assert stops == 0
    assert fits_the_screen(page)


def test_the_answer_is_folded_but_for_what_decides(thumb):
    page = thumb(address(*CHAINS["lossy"]))
    expect(page.locator(".rf-answer:not([aria-busy]) .rf-banner__means")).to_contain_text("Works, but")
    open_findings = page.locator(".rf-findings .rf-finding").evaluate_all(
        "all => all.filter((one) => one.checkVisibility({contentVisibilityAuto: true})).length"
    )
    assert open_findings <= 2  # one with the switch, one without
    assert page.locator(".rf-settings th").first.is_hidden()
    assert page.locator("details.rf-folded[open]").count() == 0


def test_share_stands_at_the_verdict(visit):
    page = visit(address(*CHAINS["lossy"]), permissions=["clipboard-read", "clipboard-write"])
    page.get_by_role("button", name="Share: copy the link").tap()
    expect(page.get_by_role("button", name="Copied").first).to_be_visible()
    assert page.evaluate("navigator.clipboard.readText()") == page.url


def test_share_opens_the_sheet_of_the_device_where_there_is_one(visit):
    page = visit("methods/")
    page.add_init_script("navigator.share = (what) => { window.shared = what; return Promise.resolve(); }")
    page.goto(address(*CHAINS["lossy"]))
    page.get_by_role("button", name="Share", exact=True).tap()
    until(page, lambda: page.evaluate("Boolean(window.shared)"))
    assert page.evaluate("window.shared.url") == page.url and page.evaluate("window.shared.text").startswith(
        "Lossy."
    )


@pytest.mark.parametrize(
    "chain",
    [
        ("mixer-line-out-xlr", ("xlr-f-to-xlr-m-3m",), "powered-loudspeaker-in-xlr"),
        ("mic-dynamic-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"),
    ],
)
def test_a_safe_answer_carries_no_caution_that_does_not_apply(visit, chain):
    """A line output into a loudspeaker has no phantom to beware of; a dynamic microphone does not mind it."""
    page = visit(address(*chain))
    expect(page.locator(".rf-banner")).to_have_attribute("data-verdict", "safe")
    assert page.locator(".rf-caution", has_text="phantom").count() == 0


def test_a_caution_whose_condition_is_there_stays(visit):
    page = visit(address(*CHAINS["dangerous"]))
    expect(page.locator(".rf-caution", has_text="phantom")).to_have_count(1)


@pytest.mark.parametrize(
    "words, first",
    [
        ("xlr pinout", "XLR, three contacts"),
        ("lapel mic", "Lavalier microphone"),
        ('1/4"', "6.35 mm"),
        ("reciever", "eceiver"),
        ("hum", "hum"),
    ],
)
def test_the_search_of_every_page_knows_what_people_say(thumb, words, first):
    page = thumb("more/")
    page.locator("label[for=__search]").first.tap()
    page.locator(".md-search__input").fill(words)
    top = page.locator(".md-search-result__item").first
    expect(top.locator("h1")).to_contain_text(re.compile(first, re.IGNORECASE))
    if words == "xlr pinout":
        expect(top.locator(".rf-found__pinout")).to_have_text("1 screen, 2 hot, 3 cold")


def test_nothing_found_leads_to_the_recogniser(thumb):
    page = thumb("more/")
    page.locator("label[for=__search]").first.tap()
    page.locator(".md-search__input").fill("zzqqxx")
    expect(page.locator(".rf-found__none")).to_contain_text("Brands are not kept here")
    page.locator(".rf-found__none").get_by_role("link", name="What is this plug?").tap()
    expect(page).to_have_url(re.compile("/recognise/$"))
