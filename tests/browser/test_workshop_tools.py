"""Runs, pads and the log of one's own leads, by thumb."""

import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser
LEAD = "xlr-f-to-xlr-m-3m"


@pytest.mark.parametrize(
    "address",
    [
        "workshop/",
        "workshop/trace/",
        "workshop/pads/",
        "workshop/upkeep/",
        f"workshop/{LEAD}/",
        "workshop/xlr-f-to-xlr-m-pad-20-db/",
        "guides/making/",
        "guides/testing/",
    ],
)
def test_nothing_is_wider_than_the_screen(visit, size, address):
    page = visit(address, size=size)
    expect(page.locator("h1")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]


def test_a_dead_run_is_found_by_taps(visit):
    page = visit("workshop/trace/")
    page.get_by_role("button", name="One lead more").tap()
    page.locator('[data-heard="dead"]').tap()
    title = page.locator(".rf-ask__title")
    expect(page.locator("[data-answer]").first).to_be_visible()
    asked = []
    while not (text := title.inner_text()).startswith("It is "):
        asked.append(text)
        gone = "lead 2" in text or "first 2" in text or "last 2" in text or "all leads" in text
        page.locator(f'[data-answer="{"gone" if gone else "stays"}"]').tap()
        expect(title).not_to_have_text(text)
    assert text == "It is lead 2" and len(asked) <= 6
    page.go_back()
    expect(title).to_have_text(asked[-1])


def test_a_pad_is_designed_while_typing(visit):
    page = visit("workshop/pads/")
    says = page.locator(".rf-pads__says").first
    before = says.inner_text()
    page.get_by_label("Loss wanted").fill("30")
    expect(says).not_to_have_text(before)
    assert "loss=30" in page.url
    page.get_by_label("Loss wanted").fill("x")
    expect(page.get_by_text("Write a number from 1 to 80 dB.")).to_be_visible()
    page.get_by_label("Loss wanted").fill("3")
    page.get_by_label("Form").select_option("O")
    expect(page.get_by_text("Build a U-pad.")).to_be_visible()


def added(page, label, kind=""):
    page.get_by_role("button", name="Add a lead").tap()
    page.get_by_label("Label, as it is written on the lead").fill(label)
    if kind:
        page.get_by_label("What it is").fill(kind)
    page.get_by_role("button", name="Keep").tap()


def test_a_lead_is_kept_and_comes_back(visit, catalogue):
    page = visit("workshop/upkeep/")
    for label in ("X-01", "X-02", "X-03"):
        added(page, label, catalogue.leads[LEAD].name)
    expect(page.locator(".rf-upkeep__sum")).to_have_text("3 leads, 3 never tested")
    page.reload()
    expect(page.locator(".rf-upkeep__list li")).to_have_count(3)
    page.get_by_role("button", name="Leads that came back").tap()
    expect(page.get_by_text("Must beep:")).to_be_visible()
    for label, answer in (("X-01", "passed"), ("X-02", "failed"), ("X-03", "missing")):
        expect(page.locator(".rf-ask__title")).to_have_text(label)
        page.locator(f'[data-answer="{answer}"]').tap()
    expect(page.locator(".rf-ask__title")).to_have_text("Through: 1 passed, 1 failed, 1 not here")
    page.get_by_role("button", name="Back to the list").tap()
    expect(page.locator(".rf-upkeep__sum")).to_have_text("3 leads, 1 never tested, 1 out of use")


def test_a_label_is_there_once_and_a_kind_is_known(visit):
    page = visit("workshop/upkeep/")
    added(page, "X-01")
    added(page, "x-01")
    expect(page.get_by_role("alert")).to_have_text(
        "There is a lead labelled x-01 already. Give this one another label. Nothing was lost."
    )
    page.get_by_label("Label, as it is written on the lead").fill("<b>X</b>")
    page.get_by_label("What it is").fill("spaghetti")
    page.get_by_role("button", name="Keep").tap()
    expect(page.get_by_role("alert")).to_contain_text("“spaghetti” is no lead of this catalogue.")
    page.get_by_label("What it is").fill("")
    page.get_by_role("button", name="Keep").tap()
    expect(page.locator(".rf-option__name").first).to_have_text("<b>X</b>")


def test_out_as_a_file_and_in_again(visit, tmp_path):
    page = visit("workshop/upkeep/")
    added(page, "X-01")
    page.get_by_text("Take the log along").tap()
    with page.expect_download() as got:
        page.get_by_role("button", name="Export JSON").tap()
    log = json.loads(Path(got.value.path()).read_text())
    assert [lead["label"] for lead in log["leads"]] == ["X-01"]
    file = tmp_path / "leads.csv"
    file.write_text("label,tested,result,due\r\nX-07,2020-01-01,passed,2020-07-01\r\nX-08,soon,,\r\n")
    page.locator("#rf-upkeep-file").set_input_files(file)
    expect(page.locator(".rf-upkeep__told")).to_have_text(
        "Read 1 lead. X-08: “soon” is no day. Write it like 2026-11-28."
    )
    expect(page.locator(".rf-upkeep__sum")).to_have_text("2 leads, 1 due, 1 never tested")


def test_a_browser_that_keeps_nothing_says_so(visit):
    page = visit("workshop/")
    page.add_init_script(
        "Object.defineProperty(Storage.prototype, 'setItem', { value() { throw new DOMException('no', "
        "'QuotaExceededError'); } });"
    )
    page.goto("workshop/upkeep/")
    added(page, "X-01")
    expect(page.get_by_role("alert")).to_have_text(
        "This browser's store is full, so the last change is not kept. Export the log now, then make room."
    )
    expect(page.locator(".rf-option__name")).to_have_text("X-01")


def test_a_sheet_prints_alone_and_black_on_white(visit):
    page = visit(f"workshop/{LEAD}/", color_scheme="dark")
    page.evaluate("window.print = () => {}")
    page.locator("#test-sheet + .rf-noprint").tap()
    page.emulate_media(media="print", color_scheme="dark")
    assert page.locator("#test-sheet").is_visible() and not page.locator("#build-sheet").is_visible()
    assert not page.locator("#rf-workshop").is_visible()
    ground, ink = page.evaluate(
        "[getComputedStyle(document.body).backgroundColor, "
        "getComputedStyle(document.querySelector('.rf-tick')).color]"
    )
    assert (ground, ink) == ("rgb(255, 255, 255)", "rgb(0, 0, 0)")
    page.evaluate("window.dispatchEvent(new Event('afterprint'))")
    assert page.locator("#build-sheet").is_visible()


def test_the_leads_are_found_by_words(visit):
    page = visit("workshop/")
    page.get_by_label("Find a lead").fill("xlr 20 m")
    assert 0 < page.locator(".rf-workshop__leads li:visible").count() < 30
    page.get_by_label("Find a lead").fill("zzz")
    expect(page.locator("#rf-leads-count")).to_contain_text("No lead has all of these words")


def test_a_tag_has_its_code_and_a_line_of_ones_own(visit):
    page = visit("workshop/upkeep/")
    page.get_by_role("button", name="Add a lead").tap()
    page.get_by_label("Label").first.fill("X-01")
    page.get_by_role("button", name="Keep", exact=True).tap()
    page.get_by_role("button", name="Tags to print").tap()
    page.get_by_label("Your own line on every tag").fill("Sound cart, ask the boom operator")
    page.get_by_label("Your own line on every tag").blur()
    tag = page.locator(".rf-tag")
    expect(tag).to_contain_text("Sound cart, ask the boom operator")
    assert len(tag.locator("svg path").get_attribute("d")) > 400
    coded = page.evaluate("Ringfence.upkeep.coded('X-01', location)")
    page.goto(coded)
    page.reload()
    expect(page.locator(".rf-ask__title")).to_contain_text("X-01")


def test_the_bench_finds_a_fault_in_a_lead_of_its_own(visit):
    """Worked out in a worker; a pair of contacts that reads nothing is found open."""
    page = visit("bench/#ends=xlr-3/female,phone-35-trs/plug&joins=a.1_b.sleeve,a.2_b.tip,a.3_b.ring")
    page.get_by_role("button", name="Find what is wrong with it").tap()
    title = page.locator(".rf-mend .rf-ask__title")
    expect(title).to_contain_text("Next:")
    for _ in range(8):
        words = title.inner_text()
        if not words.startswith(("Next:", "To prove it:")):
            break
        probes = re.findall(r"[ab]\.\w+", words)
        dead = "a.2" in probes
        whole = not dead and set(probes) in ({"a.1", "b.sleeve"}, {"a.3", "b.ring"})
        page.locator(f'.rf-mend [data-answer="{"below 1 Ω: a wire" if whole else "no reading"}"]').tap()
        expect(title).not_to_have_text(words)
    expect(title).to_contain_text("Found:")
    expect(title).to_contain_text("open")
    page.get_by_role("button", name="Show the sheets").tap()
    expect(page.locator(".rf-make")).to_contain_text("wire core-2, to a.2")


def test_a_lead_of_the_bench_can_be_ordered_so_that_it_cannot_be_wired_otherwise(visit, size):
    page = visit(
        "bench/#ends=xlr-3/female,phone-35-trs/plug&joins=a.1_b.sleeve,a.2_b.tip,a.3_b.ring", size=size
    )
    page.get_by_role("button", name="Show the sheets").click()
    lines = page.locator(".rf-order").inner_text().splitlines()
    assert lines[0].startswith("Please make: ")
    assert any(line.startswith("End a: XLR, three contacts, female (") for line in lines) and any(
        line.startswith("End b: 3.5 mm phone, three contacts (TRS), plug (") for line in lines
    )
    assert (
        lines.count("  a.2 to b.tip: below 1 Ω: a wire") == 1
        and lines[-1] == "  every other pair: no reading"
    )
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
