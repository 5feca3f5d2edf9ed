"""One class: a lesson is made, played, a test is sat on a phone without a network,
and its code is checked."""

import json
import re
from urllib.parse import quote

import pytest
from conftest import PATIENCE, PHONE
from playwright.sync_api import expect
from served import served

pytestmark = pytest.mark.browser
CHECK = "…/check/#from=mic-ribbon-xlr&through=xlr-f-to-xlr-m-3m&into=recorder-mic-in-t-power-xlr"


@pytest.mark.parametrize(
    "address",
    [
        "class/",
        "class/practice/",
        "class/lesson/#lesson=02-xlr",
        "class/make/",
        "class/test/",
        "class/lessons/02-xlr/",
        "guides/trainers/",
    ],
)
def test_nothing_is_wider_than_the_screen(visit, size, address):
    page = visit(address, size=size)
    expect(page.locator("h1")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]


def test_a_lesson_is_made_and_played(visit):
    page = visit("class/make/")
    page.get_by_label("Title").fill("Ribbons")
    page.get_by_label("Own words").fill("<b>Say it</b> first")
    page.get_by_role("button", name="Add the words").tap()
    page.get_by_label("A page of this site").fill(CHECK)
    page.get_by_role("button", name="Add that page").tap()
    expect(page.locator(".rf-class__stops li")).to_have_count(2)
    page.get_by_role("link", name="Play it").tap()
    expect(page.locator(".rf-class__say")).to_have_text("<b>Say it</b> first")
    page.get_by_role("button", name="Next").tap()
    expect(page.locator(".rf-class__verdict")).to_have_count(0)
    page.get_by_role("button", name="Show what happens").tap()
    expect(page.locator(".rf-class__verdict")).to_have_text("dangerous")


def test_what_is_gone_is_told_and_the_rest_is_played(visit):
    page = visit(
        "class/lesson/#title=T&stop=draw%7Cno-such-plug%7C&stop=say%7C%7CStill+here&stop=film%7Cx%7C"
    )
    expect(page.get_by_role("alert")).to_have_count(2)
    expect(page.get_by_role("alert").first).to_have_text(
        "Stop 1 is left out. Nothing called “no-such-plug” can be drawn; it may have another name now."
    )
    expect(page.locator(".rf-class__say")).to_have_text("Still here")


def answered(page):
    """Answer whatever is asked, with the first answers there are."""
    asked = page.locator(".rf-class__asked")
    if asked.locator("input[name=number]").count():
        asked.locator("input[name=number]").fill("1")
        asked.get_by_role("button", name="That is my guess").tap()
    elif asked.get_by_role("button", name="This is the order").count():
        for place in range(asked.locator("[data-answer]").count()):
            asked.locator("[data-answer]").nth(place).tap()
        asked.get_by_role("button", name="This is the order").tap()
    else:
        asked.locator("[data-answer]").first.tap()


@pytest.fixture
def kept(browser, site):
    """A phone that has kept the whole site, and whose server has gone."""
    with served(site.folder) as own:
        context = browser.new_context(
            viewport=PHONE, has_touch=True, base_url=own.base, service_workers="allow"
        )
        context.set_default_timeout(PATIENCE)
        page = context.new_page()
        page.goto("check/")
        expect(page.locator("#rf-offline")).to_contain_text("Kept on this device")
        page.wait_for_function("navigator.serviceWorker.controller !== null")
        own.stop()
        yield page
        context.close()


def test_a_test_is_sat_without_a_network_and_its_code_checked(kept):
    page = kept
    page.goto("class/test/")
    page.get_by_label("Seed").fill("harbour")
    page.get_by_label("How many questions").fill("5")
    page.get_by_role("button", name="Make the test").tap()
    expect(page.locator(".rf-ask__title")).to_contain_text("Test “harbour”: 5 questions")
    page.get_by_role("link", name="Sit it yourself").tap()
    page.get_by_label("Your number").fill("12")
    page.get_by_role("button", name="Begin").tap()
    for place in range(5):
        expect(page.locator(".rf-class__place")).to_have_text(f"{place + 1} of 5")
        answered(page)
    score, code = (
        page.locator(".rf-ask__title").first.inner_text(),
        page.locator(".rf-class__code").inner_text(),
    )
    page.go_back()
    slip = code[:-1] + ("0" if code[-1] != "0" else "1")
    page.get_by_label("Codes, one a line").fill(f"{code.lower()}\n{slip}")
    page.get_by_role("button", name="Check").tap()
    expect(page.locator(".rf-class__result summary")).to_have_text(f"Learner 12: {score}")
    expect(page.get_by_text("A letter is wrong or missing.")).to_be_visible()


def test_practice_tells_at_once_keeps_the_day_and_forgets(visit):
    page = visit("class/practice/#ask=contact:xlr-3-balanced,2")
    page.locator('[data-spot="2"]').tap()
    expect(page.locator(".rf-class__told")).to_have_attribute("data-right", "true")
    due, interval, right, wrong = json.loads(page.evaluate("localStorage.getItem('ringfence.class')"))[
        "seen"
    ]["contact:xlr-3-balanced,2"]
    assert (interval, right, wrong) == (1, 1, 0)
    page.get_by_role("button", name="How it went").tap()
    page.get_by_role("button", name="Enough for now").tap()
    page.get_by_role("button", name="Forget everything on this device").tap()
    assert page.evaluate("localStorage.getItem('ringfence.class')") is None


def test_a_question_that_is_gone_is_told(visit):
    page = visit("class/practice/#ask=contact:gone,1")
    expect(page.get_by_role("alert")).to_contain_text("There is no question at “contact:gone,1” any more")


def test_a_word_of_the_glossary_opens_where_it_stands(visit):
    page = visit("guides/balance/")
    word = page.locator("a.rf-term", has_text="screen").first
    expect(word).to_have_attribute("aria-expanded", "false")
    word.press("Enter")
    expect(page.get_by_role("note").filter(has_text="screen: ")).to_contain_text(
        "The conductor around the others."
    )
    expect(word).to_have_attribute("aria-expanded", "true")
    word.press("Enter")
    expect(page.locator(".rf-term__says")).to_have_count(0)
    assert page.url.endswith("guides/balance/")


def test_a_word_whose_text_cannot_be_had_leads_to_the_glossary(visit, site):
    page = visit("guides/balance/")
    page.route("**/glossary.js", lambda route: route.fulfill(body="", content_type="text/javascript"))
    page.locator("a.rf-term", has_text="screen").first.click()
    page.wait_for_url("**/guides/glossary/#screen")


def test_a_guide_ends_with_three_questions_that_open_in_place(visit, size):
    page = visit("guides/balance/", size=size)
    asked = page.locator("details.rf-quiz")
    expect(asked).to_have_count(3)
    asked.first.locator("> summary").press("Enter")
    choices = asked.first.locator(".rf-quiz__choice")
    choices.nth(1).locator("summary").press("Enter")
    expect(choices.nth(1)).to_contain_text("Not quite. It carries hot.")
    choices.nth(2).locator("summary").press("Enter")
    expect(choices.nth(2).locator("strong")).to_have_text("Right.")
    expect(choices.nth(2)).to_contain_text("Cold is on contact 3.")
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]


def test_a_lesson_is_made_by_picking_while_browsing(visit):
    """A plug, a lead, an answer with its switch set, a guide and a question; the lesson waits in this
    browser between them."""
    page = visit("connectors/xlr-3/")
    for stops, address in enumerate(("leads/xlr-f-to-xlr-m-3m/", "guides/balance/", None), 1):
        page.get_by_role("link", name=re.compile("Add .*to a lesson")).click()
        expect(page.locator(".rf-class__stops li")).to_have_count(stops)
        page.get_by_role("button", name="Back to where you were").click()
        expect(page).not_to_have_url(re.compile("class/make"))
        if address:
            page.goto(address)
    page.goto(
        "check/#from=mic-condenser-p48-xlr&through=xlr-f-to-xlr-m-3m&into=mixer-mic-in-p48-xlr&set=phantom:off"
    )
    page.locator(".rf-share__more summary").click()
    page.get_by_role("link", name="Add to a lesson").click()
    expect(page.locator(".rf-class__stops li").nth(3)).to_contain_text(
        "Mixer microphone input, 48 V phantom, Phantom 48 V off"
    )
    page.reload()
    expect(page.locator(".rf-class__stops li")).to_have_count(4)
    page.get_by_role("link", name="Play it").click()
    for _ in range(3):
        page.get_by_role("button", name="Next").click()
    page.get_by_role("button", name="Show what happens").click()
    expect(page.locator(".rf-class__set")).to_contain_text("With phantom 48 V off: no signal.")


@pytest.mark.parametrize(
    "stop, told",
    [
        (
            "draw|nothing|",
            "Nothing called “nothing” can be drawn; it may have another name now. Nothing was lost.",
        ),
        ("film|x|", "That address adds nothing this version knows. Nothing was lost."),
        (
            "check|mic-dynamic-xlr,-,mixer-mic-in-p48-xlr,<b>|",
            "There is no judged connection “mic-dynamic-xlr,-,mixer-mic-in-p48-xlr,<b>”. Nothing was lost.",
        ),
    ],
)
def test_what_cannot_be_added_is_told_and_the_lesson_stays(visit, stop, told):
    page = visit("class/make/#add=draw%7Cxlr-3%7C")
    expect(page.locator(".rf-class__stops li")).to_have_count(1)
    page.goto(f"class/make/#add={quote(stop)}")
    expect(page.get_by_role("alert")).to_have_text([told])
    expect(page.locator(".rf-class__stops li")).to_have_count(1)


def test_a_lesson_by_its_address_does_not_hide_the_one_that_was_begun(visit):
    page = visit("class/make/#add=draw%7Cxlr-3%7C")
    expect(page.locator(".rf-class__stops li")).to_have_count(1)
    page.goto("about:blank")
    page.goto("class/make/#title=Theirs&stop=say%7C%7COne&stop=say%7C%7CTwo")
    expect(page.locator(".rf-class__stops li")).to_have_count(2)
    expect(page.locator("main")).to_contain_text("You had begun another lesson, “My lesson”.")
    page.get_by_role("link", name="Open that one").click()
    expect(page.locator(".rf-class__stops li")).to_have_count(1)


def test_a_browser_that_keeps_nothing_says_so(visit):
    page = visit("class/make/")
    page.evaluate("() => { Storage.prototype.setItem = () => { throw new Error('refused'); }; }")
    page.get_by_label("Own words").fill("Say it first")
    page.get_by_role("button", name="Add the words").click()
    expect(page.get_by_role("alert")).to_have_text(
        "This browser keeps nothing: before you go on, copy the lesson's address or save it as a file."
    )


def test_a_question_is_taken_elsewhere_from_practice(visit, site):
    page = visit(
        "class/practice/#ask=contact:mini-xlr-3-balanced,3", permissions=["clipboard-read", "clipboard-write"]
    )
    page.locator('[data-answer="3"]').click()
    page.get_by_text("Use this question elsewhere").click()
    page.get_by_role("button", name="Copy a frame for your own page").click()
    expect(page.get_by_role("button", name="Copied")).to_be_visible()
    assert page.evaluate("navigator.clipboard.readText()") == (
        f'<iframe src="{site.base}embed/questions/contact/mini-xlr-3-balanced,3/" title="Which contact '
        'carries cold?" width="390" height="560"></iframe>'
    )
    page.get_by_role("link", name="Add to a lesson").click()
    expect(page.locator(".rf-class__stops li")).to_contain_text("Question: Which contact carries cold?")
