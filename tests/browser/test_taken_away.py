"""What one takes from our pages: pictures as PNG, and how a record or an answer is cited."""

import io

import numpy as np
import pytest
from answers import CHAINS, address
from conftest import DESK, PATIENCE, at_rest
from PIL import Image
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


def png(page, button):
    """The file a button saves, as an image."""
    with page.expect_download() as saved:
        button.click()
    assert saved.value.suggested_filename.endswith(".png")
    with open(saved.value.path(), "rb") as file:
        content = file.read()
    assert content.startswith(b"\x89PNG\r\n\x1a\n")
    return Image.open(io.BytesIO(content)).convert("RGBA")


def inked(image):
    """Whether the picture is black on white: every corner white and most of it white or nearly so, no part to
    be seen through, and something drawn."""
    colours, alpha = np.split(np.asarray(image), [3], axis=-1)
    corners = [image.getpixel((x, y)) for x in (0, image.width - 1) for y in (0, image.height - 1)]
    light, dark = (colours.min(axis=-1) > 230).mean(), (colours.max(axis=-1) < 60).mean()
    return corners == [(255, 255, 255, 255)] * 4 and (alpha == 255).all() and light > 0.6 and dark > 0.005


def test_a_drawing_is_saved_as_png(visit):
    page = visit("connectors/xlr-3/", size=DESK, color_scheme="dark")
    image = png(page, page.get_by_role("button", name="PNG: Looking into the holes."))
    assert image.width == 1280 and 400 < image.height < 2400
    assert inked(image)


def test_an_answer_is_saved_as_png(visit):
    page = visit(address(*CHAINS["dangerous"]), size=DESK)
    page.locator(".rf-share__more summary").click()
    image = png(page, page.get_by_role("button", name="Save the answer as PNG"))
    assert image.width > 1500 and image.height > 800
    assert inked(image)


def test_a_browser_that_does_not_let_its_drawings_be_read_is_told_of(browser, site):
    """A page opened from a disc: every file there counts as another's. And no address of a disc is cited."""
    page = browser.new_page()
    page.set_default_timeout(PATIENCE)
    page.goto((site.folder / "leads/xlr-f-to-xlr-m-3m/index.html").as_uri())
    page.get_by_role("button", name="PNG").click()
    expect(page.locator(".rf-take__drawings")).to_contain_text(
        "No PNG here: this browser does not let the page read its drawings."
    )
    expect(page.locator(".rf-take__text").nth(1)).to_contain_text(
        "Ringfence, leads/xlr-f-to-xlr-m-3m/. Data of "
    )
    expect(page.locator(".rf-take__bare")).to_be_visible()
    page.close()


def test_where_no_address_is_known_a_record_is_cited_by_the_one_it_is_read_at(visit, site):
    page = visit("leads/xlr-f-to-xlr-m-3m/")
    texts = page.locator(".rf-take__text")
    expect(texts.nth(1)).to_contain_text(
        f"XLR microphone lead, 3 m. Ringfence, {site.base}leads/xlr-f-to-xlr-m-3m/. Data of "
    )
    expect(texts.nth(0)).to_contain_text(
        f'<iframe src="{site.base}embed/leads/xlr-f-to-xlr-m-3m/" title="XLR microphone lead, 3 m" '
        'width="360"'
    )
    assert page.locator(".rf-take__bare, .rf-qr").count() == 0


def test_copying_and_the_frame_of_each_drawing(visit, site):
    page = visit("connectors/xlr-3/", permissions=["clipboard-read", "clipboard-write"])
    page.get_by_role("button", name="Embed: Looking into the holes.").click()
    expect(page.get_by_role("button", name="Embed: Looking into the holes.")).to_have_text("Copied")
    assert page.evaluate("navigator.clipboard.readText()").startswith(
        f'<iframe src="{site.base}embed/connectors/xlr-3/#connector-xlr-3-female-face" title="XLR, three '
        'contacts"'
    )
    page.get_by_role("button", name="Copy: Correct this fact").click()
    expect(page.get_by_role("button", name="Copy: Correct this fact")).to_have_text("Copied")
    assert "1. What does the page say?\n2. What is true instead?\n3. How do you know" in page.evaluate(
        "navigator.clipboard.readText()"
    )


def test_without_scripts_a_record_still_tells_how_to_cite_and_correct_it(visit):
    page = visit("leads/xlr-f-to-xlr-m-3m/", java_script_enabled=False)
    expect(page.locator(".rf-take")).to_contain_text("Put the address of this site before leads/.")
    expect(page.locator(".rf-take")).to_contain_text("2. What is true instead?")
    assert (
        page.get_by_role("button", name="Copy").count() == 0
        and page.locator(".rf-take").get_by_role("link", name="SVG").count() == 1
    )


@pytest.mark.parametrize("verdict", CHAINS)
def test_an_answer_is_cited_with_its_verdict_link_and_data(visit, site, verdict):
    page = visit(address(*CHAINS[verdict]))
    page.locator(".rf-share__more summary").click()
    frame, cited = page.locator(".rf-share .rf-take__text").all_inner_texts()
    assert f"Verdict: {verdict}. Ringfence, {site.base}{address(*CHAINS[verdict])}. Data of " in cited
    assert frame.startswith(
        f'<iframe src="{site.base}embed/{address(*CHAINS[verdict])}'.replace("&", "&amp;")
    )


@pytest.mark.parametrize(
    "path, opened",
    [
        ("connectors/xlr-3/", None),
        (address(*CHAINS["dangerous"]), ".rf-share__more summary"),
        ("cards/#leads=xlr-f-to-xlr-m-3m", ".rf-more summary"),
    ],
)
def test_a_thumb_can_hit_what_is_offered(visit, path, opened):
    page = visit(path)
    at_rest(page)
    if opened:
        page.locator(opened).first.click()
    small = page.locator(
        ":is(.rf-take, .rf-share, .rf-cards__desk) :is(button, a.rf-button, summary, label, "
        "input[type=search])"
    ).evaluate_all(
        "all => all.filter((one) => one.checkVisibility()).map((one) => [one.textContent, "
        "one.getBoundingClientRect()]).filter(([, box]) => box.height < 43.5 || "
        "box.width < 43.5).map(([text, box]) => `${text} ${box.width} x ${box.height}`)"
    )
    assert small == []
