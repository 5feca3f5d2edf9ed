"""My kit as a table, kits to begin with, what got worse after an update; a verdict handed on as a picture and
as a code; icons of the home screen."""

import io
import json

import pytest
from axe_playwright_python.sync_playwright import Axe
from answers import CHAINS, address
from conftest import PHONE, becomes
from PIL import Image
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

MINE = {
    "ports": ["mic-dynamic-xlr", "mixer-line-out-xlr", "recorder-mic-in-p48-combo", "camera-mic-in-35"],
    "leads": ["xlr-f-to-xlr-m-3m", "xlr-f-to-35-trs-both-capacitor"],
    "jobs": [],
}


def with_kit(visit, to):
    page = visit("methods/", size=PHONE, has_touch=True)
    page.evaluate("(kit) => localStorage.setItem('ringfence.bag', JSON.stringify(kit))", MINE)
    page.goto(to)
    return page


def faults(page):
    return [one["id"] for one in Axe().run(page).response["violations"]]


def test_a_kit_to_begin_with_is_one_tap(visit):
    page = visit("bag/", size=PHONE, has_touch=True)
    page.get_by_role("button", name="Add to my kit: Boom and mixer").tap()
    assert "mic-condenser-p48-xlr" in page.evaluate("JSON.parse(localStorage.getItem('ringfence.bag')).ports")


def test_what_of_mine_goes_into_what_of_mine_dangers_first(visit, table):
    page = with_kit(visit, "bag/")
    page.get_by_role("button", name="Pairs").tap()
    titles = page.locator("#rf-bag h2").all_inner_texts()
    assert titles == ["Never like this", "What goes into what"]
    harmful = [
        row
        for row in table
        if row["from"] in MINE["ports"]
        and row["into"] in MINE["ports"]
        and set(row["through"]) <= set(MINE["leads"])
        and row["verdict"] == "dangerous"
        and not row.get("offered")
    ]
    told = page.locator(".rf-kit__dangers .rf-option")
    assert harmful and told.count() == len(harmful)
    row = page.get_by_role("row").filter(has=page.get_by_role("rowheader", name="Dynamic microphone"))
    expect(row.get_by_role("link").first).to_contain_text("XLR microphone lead, 3 m")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert faults(page) == []


def test_the_first_page_offers_my_things_first(visit):
    page = with_kit(visit, "check/")
    expect(page.locator("[data-kit] .rf-option").first).to_have_attribute("data-key", "kit mic-dynamic-xlr")
    page.locator("[data-key='kit mic-dynamic-xlr']").tap()
    page.locator("[data-key='kit camera-mic-in-35']").tap()
    expect(page.locator(".rf-ways")).to_be_visible()


def test_what_got_worse_for_my_kit_is_announced_until_it_is_read(visit):
    page = with_kit(visit, "methods/")
    seen = {
        "edition": "an older one",
        "date": "2026-01-01",
        "verdicts": {"mixer-line-out-xlr|xlr-f-to-xlr-m-3m|recorder-mic-in-p48-combo": "safe"},
    }
    page.evaluate("(seen) => localStorage.setItem('ringfence.kit-seen', seen)", json.dumps(seen))
    page.goto("bag/")
    news = page.locator(".rf-kit__news")
    expect(news).to_contain_text("you last looked at those of 2026-01-01")
    expect(news.get_by_role("link")).to_contain_text("was safe")
    news.get_by_role("button", name="I have read this").tap()
    expect(news).to_have_count(0)
    page.reload()
    expect(page.locator(".rf-tabs")).to_be_visible()
    expect(news).to_have_count(0)


def test_what_got_worse_for_my_kit_stands_on_the_first_page_too(visit):
    """Only where an update brought it, only for what is in the kit, and until it is read."""
    page = with_kit(visit, "methods/")
    news = page.locator(".rf-kit__news")

    def first_page(edition, pair):
        seen = {"edition": edition, "date": "2026-01-01", "verdicts": {pair: "safe"}}
        page.evaluate("(seen) => localStorage.setItem('ringfence.kit-seen', seen)", json.dumps(seen))
        page.goto("methods/")
        page.goto("check/")
        expect(page.get_by_role("heading", name="What have you got?")).to_be_visible()

    mine, now = (
        "mixer-line-out-xlr|xlr-f-to-xlr-m-3m|recorder-mic-in-p48-combo",
        page.locator("meta[name=edition]").get_attribute("content"),
    )
    first_page(now, mine)
    assert page.evaluate("Ringfence.kit === undefined"), (
        "nothing more is loaded where this edition was looked at"
    )
    first_page("an older one", "guitar-pickup-635|xlr-f-to-xlr-m-3m|recorder-mic-in-p48-combo")
    becomes(page, f"JSON.parse(localStorage.getItem('ringfence.kit-seen')).edition === {json.dumps(now)}")
    expect(news).to_have_count(0)
    first_page("an older one", mine)
    expect(news.get_by_role("link")).to_contain_text("was safe")
    assert faults(page) == []
    news.get_by_role("button", name="I have read this").tap()
    expect(news).to_have_count(0)
    page.reload()
    expect(page.get_by_role("heading", name="What have you got?")).to_be_visible()
    expect(news).to_have_count(0)


def test_how_many_of_each_is_counted_kept_and_handed_on(visit):
    page = with_kit(visit, "bag/")
    many = page.get_by_role("group", name="How many: XLR microphone lead, 3 m")
    expect(many).to_contain_text("1 ×")
    expect(many.get_by_role("button", name="One fewer")).to_be_disabled()
    for number in ("2 ×", "3 ×"):
        many.get_by_role("button", name="One more").tap()
        expect(many).to_contain_text(number)
    page.reload()
    expect(many).to_contain_text("3 ×")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth") and faults(page) == []
    page.get_by_text("Hand it on, or bring one in").tap()
    link = page.locator(".rf-bag__out textarea").first.input_value()
    other = visit(f"bag/#{link.partition('#')[2]}")
    other.get_by_role("button", name="Use it").tap()
    expect(other.get_by_role("group", name="How many: XLR microphone lead, 3 m")).to_contain_text("3 ×")


def test_a_verdict_is_handed_on_as_a_picture(visit):
    page = visit(address(*CHAINS["dangerous"]), size=PHONE, has_touch=True)
    with page.expect_download() as saved:
        page.get_by_role("button", name="Picture for a message").tap()
    with open(saved.value.path(), "rb") as file:
        image = Image.open(io.BytesIO(file.read())).convert("RGB")
    assert image.width == 1080 and image.height >= 1350
    assert image.getpixel((4, 4)) == (0xF5, 0xD3, 0xBD)  # the tint of what is dangerous
    foot = image.crop((1080 - 2 * 144, image.height - 2 * 144, 1080 - 48, image.height - 48))
    # a code is about half black
    assert (
        0.3
        < sum(one < 60 for one in foot.convert("L").get_flattened_data()) / (foot.width * foot.height)
        < 0.7
    )


def test_an_answer_shows_its_code_and_hides_it_again(visit):
    page = visit(address(*CHAINS["lossy"]), size=PHONE, has_touch=True)
    page.get_by_role("button", name="QR code").tap()
    code = page.get_by_role("img", name="This answer as a code for a phone's camera")
    expect(code).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert faults(page) == []
    page.get_by_role("button", name="QR code").tap()
    expect(code).to_have_count(0)


def test_the_home_screen_has_icons_of_the_sizes_it_is_told(visit, site):
    page = visit("check/")
    manifest = json.loads((site.folder / "manifest.webmanifest").read_text())
    drawn = [icon for icon in manifest["icons"] if icon["type"] == "image/png"]
    assert {(icon["purpose"], icon["sizes"]) for icon in drawn} == {
        (purpose, f"{size}x{size}") for purpose in ("any", "maskable") for size in (192, 512)
    }
    for icon in drawn:
        assert "x".join(map(str, Image.open(site.folder / icon["src"]).size)) == icon["sizes"]
    touch = page.locator("link[rel=apple-touch-icon]").get_attribute("href")
    assert Image.open((site.folder / "check" / touch).resolve()).size == (180, 180)
    assert page.locator("meta[name=theme-color]").evaluate_all(
        "(found) => found.map((one) => one.media)"
    ) == ["(prefers-color-scheme: light)", "(prefers-color-scheme: dark)"]
