"""Drawings and verdicts on other people's pages, and what one takes from ours: frames that fit, answers as on
the check, real PNG files, addresses."""

from urllib.error import HTTPError
from urllib.request import urlopen

import pytest
from answers import CHAINS, address, expected
from conftest import PHONE, at_rest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

DRAWN = [
    "connectors/xlr-3/",
    "connectors/d-sub-25/",
    "assignments/xlr-3-balanced/",
    "ports/mic-dynamic-xlr/",
    "leads/xlr-f-to-xlr-m-3m/",
]
SIZES = [(320, 240), (390, 500), (390, 844)]
FRAMING = (
    '<!doctype html><meta charset="utf-8"><link rel="icon" '
    'href="/assets/favicon.svg"><title>Somebody</title>{}'
)


@pytest.fixture
def framed(visit, site):
    """framed(address, width, height, **how): the frame, on somebody's page."""

    def opened(path, width, height, **how):
        site.replaced["somebody/"] = FRAMING.format(
            f'<iframe src="/{path}" width="{width}" height="{height}"></iframe>'
        ).encode()
        page = visit("somebody/", **how)
        page.frames[1].wait_for_load_state("load")
        return page.frames[1]

    yield opened
    site.replaced.pop("somebody/", None)


def sideways(frame):
    return frame.evaluate("document.documentElement.scrollWidth - innerWidth")


@pytest.mark.parametrize("path", DRAWN)
@pytest.mark.parametrize("width, height", SIZES)
def test_a_framed_drawing_fits_and_leads_back(framed, path, width, height):
    frame = framed(f"embed/{path}", width, height, java_script_enabled=False)
    seen = frame.locator("img:visible")
    assert seen.count() == 1
    box = seen.bounding_box()
    assert box["width"] > 60 and box["height"] > 60
    back = frame.get_by_role("link")
    assert back.get_attribute("target") == "_blank" and back.get_attribute("href") == f"../../../{path}"
    assert back.bounding_box()["height"] >= 44


@pytest.mark.parametrize("path", DRAWN)
@pytest.mark.parametrize("width, height", SIZES)
def test_no_frame_scrolls_sideways(framed, path, width, height):
    frame = framed(f"embed/{path}", width, height)
    assert sideways(frame) <= 0
    assert frame.locator("img:visible").evaluate("(image) => image.naturalWidth") > 0


def test_the_address_names_another_drawing_of_the_record(framed):
    frame = framed("embed/connectors/xlr-3/#connector-xlr-3-female-face", 390, 500)
    expect(frame.locator("figure:visible figcaption")).to_have_text("Looking into the holes.")
    frame = framed("embed/connectors/xlr-3/#no-such-drawing", 390, 500)
    expect(frame.locator("figure:visible figcaption")).to_have_text("Looking at the pins.")


@pytest.mark.parametrize("verdict", CHAINS)
@pytest.mark.parametrize("width, height", SIZES[:2])
def test_a_framed_check_answers_as_the_check_does(framed, catalogue, verdict, width, height):
    frame = framed(f"embed/{address(*CHAINS[verdict])}", width, height)
    answer = expected(catalogue, *CHAINS[verdict])
    expect(frame.locator(".rf-banner h2")).to_have_text(answer.verdict.capitalize())
    expect(frame.locator(".rf-banner__says")).to_have_text(answer.says)
    assert frame.locator(".rf-chain__piece img").count() == 3
    assert (
        len(
            set(
                frame.locator(".rf-thumb__piece").evaluate_all(
                    "all => all.map((one) => one.getBoundingClientRect().top)"
                )
            )
        )
        == 1
    ), "side by side"
    assert frame.locator(".rf-findings, .rf-share, button").count() == 0
    assert frame.locator("a:not([target=_blank])").count() == 0
    assert frame.locator("#rf-embed-open").get_attribute("href") == f"../../{address(*CHAINS[verdict])}"
    assert sideways(frame) <= 0


@pytest.mark.parametrize(
    "set, told",
    [
        ("phantom:off", ["With phantom 48 V off: lossy"]),
        ("phantom:perhaps", ["With phantom 48 V on: dangerous"]),
        ("", []),
    ],
)
def test_a_framed_check_tells_the_setting_it_was_passed_on_with(framed, set, told):
    """Beside the verdict over all settings, never in its place."""
    path = f"{address(*CHAINS['dangerous'])}{f'&set={set}' if set else ''}"
    frame = framed(f"embed/{path}", 390, 560)
    expect(frame.locator(".rf-banner h2")).to_have_text("Dangerous")
    expect(frame.locator(".rf-set__head")).to_have_text(told)
    assert frame.locator("#rf-embed-open").get_attribute("href") == f"../../{path}"
    assert frame.locator("button").count() == 0 and sideways(frame) <= 0


QUESTIONS = [
    "contact/xlr-3-balanced,2/",
    "lost/phone-headset-jack-lrgm,phone-35-trs-to-two-xlr-m,mixer-line-in-xlr/",
    "order/phantom-on,1-2-3/",
    "estimate/phantom-left,2/",
]


@pytest.mark.parametrize("path", QUESTIONS)
def test_a_framed_question_is_asked_and_told_without_scripts_and_leads_back(framed, path):
    frame = framed(f"embed/questions/{path}", 390, 560, java_script_enabled=False)
    choices = frame.locator(".rf-quiz__choice > summary")
    assert (
        choices.count() >= 1
        and frame.get_by_text("The working").count() == 1
        and not frame.get_by_text("The working").is_visible()
    )
    for choice in choices.all():
        choice.press("Enter")
    assert frame.get_by_text("The working").is_visible()
    assert frame.locator("a:not([target=_blank])").count() == 0
    back = frame.get_by_role("link", name="More questions")
    assert (
        back.get_attribute("href").endswith(f"class/practice/#ask={path.rstrip('/').replace('/', ':')}")
        and back.bounding_box()["height"] >= 44
    )
    expect(frame.locator("footer")).to_contain_text("Ringfence. Data of ")


@pytest.mark.parametrize("path", QUESTIONS)
@pytest.mark.parametrize("width, height", SIZES)
def test_no_framed_question_scrolls_sideways(framed, path, width, height):
    frame = framed(f"embed/questions/{path}", width, height)
    for choice in frame.locator(".rf-quiz__choice > summary").all():
        choice.click()
        assert choice.bounding_box()["height"] >= 44
    assert sideways(frame) <= 0


def test_a_framed_question_tells_which_answer_is_right_and_why_another_is_not(framed):
    frame = framed(f"embed/questions/{QUESTIONS[0]}", 390, 560)
    choices = frame.locator(".rf-quiz__choice")
    choices.nth(2).locator("summary").click()
    expect(choices.nth(2)).to_contain_text("Not quite. It carries cold.")
    choices.nth(1).locator("summary").click()
    expect(choices.nth(1).locator("strong")).to_have_text("Right.")
    expect(choices.nth(1)).to_contain_text("Hot is on contact 2.")


def test_a_question_that_is_not_there_is_not_found(site):
    with pytest.raises(HTTPError, match="404"):
        urlopen(f"{site.base}embed/questions/contact/no-such-plug,1/")


@pytest.mark.parametrize(
    "hash, told",
    [
        ("#from=<script>window.pwned=1</script>", "Not found: <script>window.pwned=1</script>"),
        ("#from=<img src=x onerror=window.pwned=1>", "Not found: <img src=x onerror=window.pwned=1>"),
        ("#from=__proto__&into=constructor", "Not found: __proto__"),
        ("", "This address names no whole connection"),
        ("#from=mic-dynamic-xlr", "This address names no whole connection"),
    ],
)
def test_a_framed_check_says_what_it_cannot_answer(visit, hash, told):
    page = visit(f"embed/check/{hash}")
    expect(page.get_by_role("alert")).to_contain_text(told)
    assert (
        page.locator(".rf-banner").count() == 0
        and page.locator("#rf-embed :is(img, script, iframe)").count() == 0
    )
    assert page.evaluate("[window.pwned, document.documentElement.scrollWidth]") == [None, PHONE["width"]]


def test_the_frame_offered_for_a_record_shows_its_drawing_whole(visit, site, framed):
    page = visit("leads/xlr-f-to-xlr-m-3m/")
    text = page.locator(".rf-take__text").first.inner_text()
    site.replaced["somebody/"] = FRAMING.format(text).encode()
    page.goto("somebody/")
    at_rest(page)
    frame = page.frames[1]
    assert frame.evaluate("document.documentElement.scrollHeight - innerHeight") <= 0 and sideways(frame) <= 0
    assert frame.locator("img").bounding_box()["width"] > 290
