"""The sixteen tasks of a newcomer, each from the page one would begin at to what one wanted to know: by thumb
at two sizes, and by keys alone.

A task is a function of a hand (`hands.py`); beside it stands where it begins and how many taps it may take.
"""

import re

import pytest
from answers import CHAINS, address
from conftest import PHONE
from hands import Keys, Thumb
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

SMALL = {"width": 320, "height": 640}
HANDS = {"thumb 390": (Thumb, PHONE, True), "thumb 320": (Thumb, SMALL, True), "keys": (Keys, PHONE, False)}
MIC, CAMERA = "mic-dynamic-xlr", "camera-mic-in-35"


def option(page, id):
    return page.locator(f".rf-picker__list .rf-option[data-id='{id}']")


def door(page, words):
    return page.get_by_role("navigation", name="Main").get_by_role("link", name=words)


def entry(page, words):
    return page.locator("main .rf-list").get_by_role("link", name=re.compile(f"^{words}"))


def what_is_this_site(hand):
    expect(hand.page.locator(".rf-check-head p")).to_contain_text(
        "see which lead does it, what you lose, and what could break"
    )
    for step in ("from", "into"):
        expect(hand.page.locator(f".rf-step__open[data-step={step}]")).to_be_in_viewport(ratio=1)


def which_lead(hand):
    hand.press(option(hand.page, MIC))
    hand.press(option(hand.page, CAMERA))
    expect(hand.page.locator(".rf-way").first).to_contain_text(
        "Best: XLR female to 3.5 mm TRS with blocking capacitor"
    )


def does_phantom_harm_my_lavalier(hand):
    page = hand.page
    hand.write(page.locator("#rf-search"), "lav into mixer")
    hand.press(page.locator(".rf-option--asked"))
    harms = page.locator(".rf-ways details", has_text=re.compile("harms? something"))
    hand.press(harms.locator("summary"))
    hand.press(harms.locator(".rf-way"))
    expect(page.locator(".rf-banner[data-verdict]")).to_have_attribute("data-verdict", "dangerous")
    expect(page.locator(".rf-banner__says")).to_contain_text(re.compile(r"\d V"))


def what_is_this_plug(hand):
    page = hand.page
    hand.press(door(page, "What is it?"))
    expect(page.locator("#rf-recognise img, #rf-recognise svg").first).to_be_in_viewport()
    while page.locator(".rf-reply").count():  # answered as somebody would who sees an XLR
        title = page.locator(".rf-ask__title").inner_text()
        fitting = page.evaluate("""() => { const { recognise, plugs } = Ringfence,
            all = Object.entries(plugs.connectors).map(([id, plug]) => ({ id, ...plug })),
            questions = recognise.questions(all, plugs.words);
            return recognise.next(all, questions, recognise.read(location.hash,
              questions)).answers.find((one) => one.fits(plugs.connectors["xlr-3"].looks)).id; }""")
        hand.press(page.locator(f".rf-reply[data-answer='{fitting}']"))
        expect(page.locator(".rf-ask__title")).not_to_have_text(title)
    expect(page.locator("#rf-recognise a", has_text="XLR, three contacts").first).to_be_visible()


def which_is_contact_three(hand):
    page = hand.page
    hand.press(door(page, "All pages"))
    hand.press(entry(page, "Plugs and sockets"))
    hand.press(entry(page, "XLR, three contacts"))
    face = page.locator("main svg.rf-drawing").first
    expect(face).to_be_in_viewport()
    assert "contact 3 (cold)" in face.evaluate(
        "one => [...one.querySelectorAll('title')].map((it) => it.textContent).join()"
    )
    assert face.bounding_box()["width"] >= 0.8 * page.viewport_size["width"]


def every_lead_for_one_output(hand):
    page = hand.page
    hand.press(door(page, "All pages"))
    hand.press(entry(page, "All pairs"))
    group = page.locator(".rf-group", has=page.get_by_text("Dynamic microphone", exact=True))
    hand.press(group.locator("summary"))
    hand.press(
        group.locator(".rf-row", has=page.get_by_text("Mixer microphone input, 48 V phantom", exact=True))
    )
    expect(page.get_by_role("dialog", name="Ways between these two")).to_contain_text(
        "XLR microphone lead, 3 m"
    )


def what_is_this_lead(hand):
    """From the meter's readings to the name of the lead."""
    page = hand.page
    for end in ("xlr-3/female", "phone-35-trs/plug"):
        hand.press(
            page.locator(
                f".rf-picker__group--first .rf-option[data-id='{end}'], .rf-picker__group--first .rf-option",
                has_text={"x": "XLR-3 female", "p": "3.5 mm TRS plug"}[end[0]],
            )
        )
    hand.press(page.get_by_text("Enter meter readings instead"))
    for pair in (
        "1 of XLR-3 female beeps to sleeve of 3.5 mm TRS plug",
        "2 of XLR-3 female beeps to tip of 3.5 mm TRS plug",
        "3 of XLR-3 female beeps to ring of 3.5 mm TRS plug",
    ):
        hand.press(page.get_by_role("button", name=pair))
    expect(page.locator("#rf-bench")).to_contain_text("XLR female to 3.5 mm TRS")


def what_of_mine_goes_into_what(hand):
    page = hand.page
    hand.press(door(page, "My kit"))
    hand.press(page.get_by_role("button", name="Add to my kit: Boom and mixer"))
    hand.press(page.get_by_role("button", name="Pairs", exact=True))
    expect(page.get_by_role("region", name="Table of my devices").get_by_role("link").first).to_be_visible()


def a_card_for_the_lid(hand):
    page = hand.page
    hand.press(door(page, "All pages"))
    hand.press(entry(page, "Cards"))
    hand.write(page.get_by_label("Search this list"), "RCA")
    hand.press(page.locator(".rf-tick input[data-id='rca-to-rca']"))
    expect(page.locator(".rf-cards__count")).to_have_text("1 card on 1 sheet")
    expect(page.get_by_role("button", name="Print")).to_be_enabled()


def hand_it_on(hand):
    hand.press(hand.page.get_by_role("button", name="Share: copy the link"))
    expect(hand.page.get_by_role("button", name="Copied").first).to_be_visible()
    assert hand.page.evaluate("navigator.clipboard.readText()") == hand.page.url


def a_frame_for_my_page(hand):
    page = hand.page
    hand.press(page.locator(".rf-share__more summary"))
    hand.press(page.locator(".rf-share__more").get_by_role("button", name=re.compile("[Ff]rame|Embed")))
    assert page.evaluate("navigator.clipboard.readText()").startswith("<iframe src=")


def without_a_network(hand):
    page = hand.page
    expect(page.locator("#rf-offline")).to_contain_text(
        "Kept on this device: the check works without a network."
    )
    page.context.set_offline(True)
    page.reload()
    hand.press(option(page, MIC))
    hand.press(option(page, CAMERA))
    expect(page.locator(".rf-way").first).to_contain_text("Best:")
    # it asks whether there is a newer version
    page.wrong[:] = [wrong for wrong in page.wrong if "ERR_INTERNET_DISCONNECTED" not in wrong]


def a_question_with_slips(hand):
    hand.write(hand.page.locator("#rf-search"), "dymanic mic to mirrorless")
    hand.press(hand.page.locator(".rf-option--asked"))
    expect(hand.page).to_have_url(re.compile(f"#from={MIC}&into={CAMERA}$"))
    expect(hand.page.locator(".rf-way").first).to_be_visible()


def show_me_the_working(hand):
    hand.press(hand.page.get_by_role("button", name="Show the working"))
    expect(hand.page.locator(".rf-working__number").first).to_be_visible()
    assert (
        hand.page.locator(".rf-working__number")
        .first.inner_text()
        .startswith(hand.page.locator(".rf-finding__number strong").first.inner_text())
    )


def a_word_of_a_guide_and_back(hand):
    page = hand.page
    hand.press(door(page, "All pages"))
    hand.press(entry(page, "Guides"))
    hand.press(page.locator("main").get_by_role("link", name=re.compile("^Phantom and other powering")))
    expect(page).to_have_url(re.compile("/guides/powering/$"))
    before = page.url
    hand.press(page.locator("main a.rf-term"), in_text=True)
    expect(page.locator(".rf-term__says").first).to_be_visible()
    assert page.url == before, "the word is told where it stands"
    page.go_back()
    expect(page.get_by_role("heading", level=1)).to_have_text("Guides")


def heard_not_seen(hand):
    """What a screen reader is told on the way, and that nothing hidden is in its way."""
    page = hand.page
    hand.press(option(page, MIC))
    expect(page.get_by_role("heading", name="What does it go into?")).to_be_focused()
    hand.press(option(page, CAMERA))
    expect(page.get_by_role("heading", name="Which lead?")).to_be_focused()
    expect(page.locator("#rf-status[aria-live=polite]")).to_contain_text("Works")
    assert (
        page.evaluate(
            "[...document.querySelectorAll('.md-sidebar a')].filter((one) => "
            "one.checkVisibility({visibilityProperty: true})).length"
        )
        == 0
    )


ANSWER = address(*CHAINS["dangerous"])
TASKS = {  # where it begins, and the most taps it may take
    what_is_this_site: ("", 0),
    which_lead: ("", 2),
    does_phantom_harm_my_lavalier: ("", 5),
    what_is_this_plug: ("", 5),
    which_is_contact_three: ("", 3),
    every_lead_for_one_output: ("", 4),
    what_is_this_lead: ("bench/", 7),
    what_of_mine_goes_into_what: ("", 8),
    a_card_for_the_lid: ("", 4),
    hand_it_on: (ANSWER, 1),
    a_frame_for_my_page: (ANSWER, 2),
    without_a_network: ("check/", 2),
    a_question_with_slips: ("", 2),
    show_me_the_working: (ANSWER, 1),
    a_word_of_a_guide_and_back: ("", 4),
    heard_not_seen: ("", 2),
}


def test_there_are_sixteen():
    assert len(TASKS) == 16


@pytest.mark.parametrize("how", HANDS)
@pytest.mark.parametrize("task", TASKS, ids=lambda task: task.__name__)
def test_a_task(visit, task, how):
    kind, size, touch = HANDS[how]
    begins, most = TASKS[task]
    workers = "allow" if task is without_a_network else "block"
    page = visit(
        begins,
        size=size,
        has_touch=touch,
        permissions=["clipboard-read", "clipboard-write"],
        service_workers=workers,
        reduced_motion="reduce",
    )
    hand = kind(page)
    task(hand)
    assert hand.taps <= most
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
