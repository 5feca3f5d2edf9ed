"""Printable cards: real PDF of the right size, nothing cut off on any card, codes a phone reads where the
address is known and none where it is not."""

import io

import cv2
import numpy
import once
import pytest
import trees
from conftest import DESK, PATIENCE, PHONE, at_rest
from mkdocs.commands.build import build as mkdocs
from mkdocs.config import load_config
from playwright.sync_api import expect
from pypdf import PdfReader
from served import served

from generator.site.tree import write

pytestmark = pytest.mark.browser

HERE = trees.HERE.site
SET = "cards/#connectors=xlr-3,d-sub-25&leads=xlr-f-to-xlr-m-3m,phone-35-trs-to-xlr-m-tip-2,bnc-jack-to-rca"
MM = 72 / 25.4
PAPERS = {"a6": (105, 148, 1), "a4": (210, 297, 4)}  # width and height in mm, ISO 216; cards on a sheet


def laid(page):
    expect(page.locator(".rf-sheets:not([aria-busy])")).to_be_attached()
    return page.locator(".rf-card").count()


def printed(page):
    return PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("colours", ["light", "dark"])
def test_cards_print_as_pdf_of_the_papers_size(visit, catalogue, paper, colours):
    page = visit(f"{SET}&paper={paper}", color_scheme=colours)
    cards = laid(page)
    width, height, each = PAPERS[paper]
    assert (
        cards >= 5
        and page.locator(".rf-cards__count").inner_text() == f"{cards} cards on {-(-cards // each)} sheets"
    )
    sheets = printed(page).pages
    assert len(sheets) == -(-cards // each)
    for sheet in sheets:
        assert [float(side) for side in sheet.mediabox[2:]] == pytest.approx([width * MM, height * MM], abs=1)
    text = "\n".join(sheet.extract_text() for sheet in sheets)
    for name in (catalogue.connectors["xlr-3"].name, catalogue.leads["xlr-f-to-xlr-m-3m"].name):
        assert name in " ".join(text.split())
    assert "Choose connectors" not in text and "Print" not in text, "the desk stays off the paper"
    assert "leads/xlr-f-to-xlr-m-3m/" in text.replace("\n", "") and "Data of " in text


def test_one_card_is_one_page(visit):
    page = visit("cards/#connectors=xlr-3")
    assert laid(page) == 1 and len(printed(page).pages) == 1


def test_a_card_is_black_on_white_and_says_what_it_says_in_words(visit):
    page = visit("cards/#leads=phone-35-trs-to-xlr-m-tip-2", color_scheme="dark")
    laid(page)
    colours = page.locator(".rf-card").first.evaluate("""card => [getComputedStyle(card).backgroundColor,
        ...new Set([card, ...card.querySelectorAll("*")].map((one) => getComputedStyle(one).color))]""")
    assert colours == ["rgb(255, 255, 255)", "rgb(0, 0, 0)"]
    drawn = page.locator(".rf-card__figure img").first.get_attribute("src")
    assert (
        drawn.startswith("data:")
        and "%23ffffff" in drawn
        and "%23f6f4ef" not in drawn
        and "prefers-color-scheme" not in drawn
    ), "the drawing's own paper is white, in the dark too"
    expect(page.locator(".rf-card__caution").first).to_contain_text("Take care")
    expect(page.locator(".rf-card__table").first).to_contain_text("hot")


@pytest.mark.parametrize("part", [0, 1])
def test_nothing_is_cut_off_on_any_card(visit, catalogue, part):
    """Every connector and every lead there is, in two lots: so many at once are laid out."""
    connectors, leads = list(catalogue.connectors)[part::2], list(catalogue.leads)[part::2]
    page = visit(f"cards/#connectors={','.join(connectors)}&leads={','.join(leads)}", size=DESK)
    expect(page.locator(".rf-sheets:not([aria-busy])")).to_be_attached()
    cut = page.locator(".rf-card__body").evaluate_all("""all => all.filter((body) =>
        body.scrollHeight > body.clientHeight || body.scrollWidth > body.clientWidth ||
        body.parentNode.scrollHeight > body.parentNode.clientHeight)
        .map((body) => body.parentNode.getAttribute("aria-label"))""")
    assert cut == []
    named = set(
        page.locator(".rf-card").evaluate_all("all => all.map((card) => card.getAttribute('aria-label'))")
    )
    assert named == {catalogue.connectors[name].name for name in connectors} | {
        catalogue.leads[name].name for name in leads
    }
    assert page.locator(".rf-card__figure p").count() == 0, "every drawing is there"
    small = page.locator(".rf-card__figure img").evaluate_all(
        "all => all.map((image) => Math.min(image.width / image.naturalWidth, "
        "image.height / image.naturalHeight)).filter((scale) => scale < 0.29)"
    )
    assert small == [], "type of 13 units stays above 4 points or so"


def test_a_lead_tells_each_join(visit, catalogue):
    page = visit("cards/#leads=xlr-f-to-xlr-m-3m")
    laid(page)
    rows = page.locator(".rf-card__table tbody tr").evaluate_all(
        "all => all.map((row) => [...row.children].map((cell) => cell.textContent))"
    )
    # AES14-1992: 1 screen, 2 hot, 3 cold
    assert rows == [["hot", "2", "2"], ["cold", "3", "3"], ["screen", "1", "1"]]


@pytest.mark.parametrize(
    "hash, told",
    [
        ("#leads=<script>window.pwned=1</script>", "Not found: <script>window.pwned=1</script>"),
        ("#connectors=<img src=x onerror=window.pwned=1>", "Not found: <img src=x onerror=window.pwned=1>"),
        ("#leads=__proto__", "Not found: __proto__"),
        ("#connectors=constructor", "Not found: constructor"),
        ("#leads=" + "x," * 1000, "Not found: 1000 leads; 300 are the most that are laid out"),
    ],
)
def test_what_names_nothing_is_said_and_never_runs(visit, hash, told):
    page = visit(f"cards/{hash}")
    expect(page.get_by_role("alert")).to_contain_text(told)
    assert laid(page) == 0 and page.get_by_role("button", name="Print").is_disabled()
    assert page.locator("#rf-cards :is(img:not(.rf-side), script, iframe)").count() == 0
    assert page.evaluate("[window.pwned, document.documentElement.scrollWidth]") == [None, PHONE["width"]]


def test_choosing_by_ticks_and_from_the_bag(visit):
    page = visit("bag/")
    page.evaluate(
        """localStorage.setItem("ringfence.bag", JSON.stringify({leads: ["xlr-f-to-xlr-m-3m"],
            ports: ["mic-dynamic-xlr"], jobs: []}))"""
    )
    page.goto("cards/")
    page.get_by_role("button", name="Add what is in my kit").tap()
    expect(page.locator(".rf-cards__count")).to_have_text("3 cards on 3 sheets")
    assert page.evaluate("location.hash") == "#connectors=xlr-3&leads=xlr-f-to-xlr-m-3m"
    page.get_by_label("Search this list").fill("bnc jack to rca")
    page.get_by_role("checkbox").first.tap()
    expect(page.locator(".rf-cards__count")).to_have_text("4 cards on 4 sheets")
    page.get_by_role("radio", name="A4").tap()
    expect(page.locator(".rf-cards__count")).to_have_text("4 cards on 1 sheet")
    page.get_by_role("button", name="Take out: BNC jack to RCA plug adapter").tap()
    expect(page.locator(".rf-cards__count")).to_have_text("3 cards on 1 sheet")


def test_without_an_address_there_is_no_code(visit):
    page = visit(SET)
    laid(page)
    assert (
        page.locator(".rf-card__code").count() == 0
        and page.locator(".rf-card__foot").first.inner_text().count("connectors/xlr-3/") == 1
    )


def test_a_record_page_prints_black_on_white_without_what_leads_on(visit):
    page = visit("leads/xlr-f-to-xlr-m-3m/", color_scheme="dark")
    text = " ".join(sheet.extract_text() for sheet in printed(page).pages)
    assert "XLR microphone lead, 3 m" in text and "Contacts" in text and "Ringfence, " in text
    assert "pinouts/" not in text and ".yaml" not in text, "names of files say nothing on paper"
    page.emulate_media(media="print")
    assert page.evaluate(
        "[getComputedStyle(document.body).backgroundColor, "
        "getComputedStyle(document.querySelector('h1')).color]"
    ) == ["rgb(255, 255, 255)", "rgb(0, 0, 0)"]
    assert not page.locator(".md-header, .md-tabs, .md-footer, .rf-button, #correct").evaluate_all(
        "all => all.some((one) => one.checkVisibility())"
    )


@pytest.fixture(scope="module")
def placed(catalogue, tmp_path_factory):
    """A site that was told where it will stand: only the pages of this test."""
    folder = tmp_path_factory.mktemp("placed")
    tree = trees.placed(catalogue, once.common(tmp_path_factory))
    write(
        {
            path: content
            for path, content in tree.items()
            if not path.endswith(".md") or path in {"index.md", "cards.md", "leads/xlr-f-to-xlr-m-3m.md"}
        },
        folder / "docs",
    )
    mkdocs(
        load_config(
            str(once.ROOT / "mkdocs.yml"), docs_dir=str(folder / "docs"), site_dir=str(folder / "site")
        )
    )
    with served(folder / "site") as site:
        yield site


def read(png):
    return cv2.QRCodeDetector().detectAndDecode(
        cv2.imdecode(numpy.frombuffer(png, numpy.uint8), cv2.IMREAD_COLOR)
    )[0]


@pytest.mark.parametrize(
    "path, code, said",
    [
        ("cards/#leads=xlr-f-to-xlr-m-3m", ".rf-card__code", "leads/xlr-f-to-xlr-m-3m/"),
        ("cards/#connectors=xlr-3&paper=a4", ".rf-card__code", "connectors/xlr-3/"),
        ("leads/xlr-f-to-xlr-m-3m/", ".rf-qr", "leads/xlr-f-to-xlr-m-3m/"),
    ],
)
def test_with_an_address_the_code_can_be_read_in_the_dark_too(browser, placed, path, code, said):
    context = browser.new_context(
        viewport=DESK,
        base_url=placed.base,
        color_scheme="dark",
        device_scale_factor=3,
        service_workers="block",
    )
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    page.goto(path)
    page.locator(code).first.scroll_into_view_if_needed()
    at_rest(page)
    assert read(page.locator(code).first.screenshot()) == HERE + said
    if path.startswith("cards"):
        page.emulate_media(media="print")
        assert page.locator(code).first.bounding_box()["width"] >= 19 / 25.4 * 96, "in millimetres of paper"
        assert read(page.locator(".rf-card").first.screenshot()) == HERE + said
        assert HERE + said in printed(page).pages[0].extract_text().replace("\n", "")
    context.close()
