"""Drawings as they stand on pages: words of 12 px and more on a phone, room kept for every picture before it
is there, a strip that steps."""

import re

import pytest
from conftest import becomes

pytestmark = pytest.mark.browser

SMALLEST = 12  # px
PAGES = (
    "guides/order/",
    "guides/balance/",
    "guides/fields/",
    "guides/powering/",
    "guides/plugs/",
    "connectors/xlr-3/",
    "assignments/xlr-3-balanced/",
    "leads/xlr-f-to-xlr-m-3m/",
    "ports/mixer-mic-in-p48-xlr/",
    "runs/",
    "workshop/xlr-f-to-xlr-m-3m/",
    "bench/#ends=xlr-3/female,phone-35-trs/plug&joins=a.1_b.sleeve,a.2_b.tip",
)
SIZES = """() => [...document.querySelectorAll("main svg[viewBox] text")].filter((one) => one.getClientRects().length).map((one) => ({
    words: one.textContent, px: parseFloat(getComputedStyle(one).fontSize) * one.getScreenCTM().a }))"""


@pytest.mark.parametrize("address", PAGES)
def test_words_in_drawings_are_12_px_and_more_on_a_phone(visit, address):
    page = visit(address)
    becomes(page, f"({SIZES})().length > 0")
    found = page.evaluate(SIZES)
    assert found, "there are drawings with words on this page"
    assert not [one for one in found if one["px"] < SMALLEST - 0.05]


def test_every_picture_keeps_its_room_before_it_is_there(site):
    """Pages as they are built: an image without both sizes would push what is below it down when it comes."""
    without, images = [], 0
    for path in site.folder.rglob("*.html"):
        for tag in re.findall(r"<img\b[^>]*>", path.read_text()):
            if 'alt="logo"' in tag:  # the theme's own, as high as its style says
                continue
            images += 1
            if not (re.search(r'\bwidth="?\d', tag) and re.search(r'\bheight="?\d', tag)):
                without.append((str(path.relative_to(site.folder)), tag))
    assert images > 100 and not without[:5]


def test_the_arrow_keys_move_the_strip_from_step_to_step(visit):
    page = visit("guides/order/")
    strip = page.get_by_role("group", name="A jack plug on its way in, step by step")
    strip.focus()
    assert strip.evaluate("one => one.scrollLeft") == 0
    page.keyboard.press("ArrowRight")
    becomes(page, "document.querySelector('.rf-strip').scrollLeft > 100")  # a whole step, not a few pixels
    lefts = (
        "[...document.querySelectorAll('.rf-strip > *')].map((one) => "
        "Math.round(one.getBoundingClientRect().left))"
    )
    becomes(
        page,
        f"{lefts}.includes(Math.round(document.querySelector('.rf-strip').getBoundingClientRect().left))",
    )
