"""The check without a pointer: every step by keys, with the focus in sight and the answer spoken. And
targets a thumb can hit."""

import pytest
from answers import CHAINS, address, expected
from conftest import DESK
from kinds import page_of
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

TOUCH = 44  # px, WCAG 2.2, 2.5.5 Target Size (Enhanced)
ROUNDING = 0.5
FOCUS = """() => {
    const one = document.activeElement, style = getComputedStyle(one), box = one.getBoundingClientRect();
    const ring = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
    return {what: one.outerHTML.slice(0, 120), id: one.id, step: one.dataset.step || "", entry: one.dataset.id ?? null, ring,
            seen: box.width > 0 && box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth};
}"""


def tab_to(page, sought, most=40):
    """Press Tab until the focus is where `sought(focus)` says; every stop on the way inside
    the check must be seen."""
    for _ in range(most):
        page.keyboard.press("Tab")
        focus = page.evaluate(FOCUS)
        if page.evaluate("document.activeElement.closest('#rf-check') !== null"):
            assert focus["ring"] and focus["seen"], focus["what"]
        if sought(focus):
            return
    raise AssertionError(f"not reached by Tab: last at {focus['what']}")


def choose(page, name, entry):
    tab_to(page, lambda focus: focus["id"] == "rf-search")
    page.keyboard.type(name)
    tab_to(page, lambda focus: focus["entry"] == entry)
    page.keyboard.press("Enter")


@pytest.mark.parametrize("verdict", ["safe", "dangerous"])
def test_a_check_by_keys_alone_is_announced(visit, catalogue, verdict):
    page = visit("check/", size=DESK)
    start, (lead,), into = CHAINS[verdict]
    spoken = page.get_by_role("status").filter(has_text="Verdict")
    choose(page, catalogue.ports[start].name, start)
    expect(page.get_by_role("heading", name="What does it go into?")).to_be_focused()
    choose(page, catalogue.ports[into].name, into)
    expect(page.get_by_role("heading", name="Which lead?")).to_be_focused()
    assert spoken.count() == 0
    tab_to(page, lambda focus: focus["step"] == "through")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Which lead have you got?")).to_be_focused()
    choose(page, catalogue.leads[lead].name, lead)
    expect(page.locator(".rf-answer__head")).to_be_focused()
    answer = expected(catalogue, start, (lead,), into)
    when = {"safe": "", "dangerous": "Dangerous with phantom 48 V on; lossy with phantom 48 V off. "}[verdict]
    expect(page.locator("#rf-status[aria-live=polite]")).to_contain_text(
        f"Verdict: {verdict}. {when}{answer.says}"
    )


def test_the_answer_can_be_walked_through_and_changed_by_keys(visit, catalogue):
    page = visit(address(*CHAINS["safe"]), size=DESK)
    tab_to(page, lambda focus: focus["step"] == "through")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Which lead have you got?")).to_be_focused()
    (lead,) = CHAINS["lossy"][1]
    choose(page, catalogue.leads[lead].name, lead)
    expect(page.locator("#rf-status")).to_contain_text("Verdict: lossy.")
    page.go_back()
    expect(page.locator("#rf-status")).to_contain_text("Verdict: safe.")
    expect(page.locator(".rf-answer__head")).to_be_focused()


def test_a_switch_is_turned_by_keys_keeps_the_focus_and_is_announced(visit):
    page = visit(address(*CHAINS["dangerous"]), size=DESK)
    page.get_by_role("switch").wait_for()
    tab_to(page, lambda focus: 'role="switch"' in focus["what"])
    for key, position, verdict in (("Space", "off", "lossy"), ("Enter", "on", "dangerous")):
        page.keyboard.press(key)
        expect(page.locator("#rf-status[aria-live=polite]")).to_contain_text(
            f"With phantom 48 V {position}: {verdict}."
        )
        expect(page.locator("#rf-status")).to_contain_text("Verdict over all settings: dangerous.")
        expect(page.get_by_role("switch")).to_be_focused()
        expect(page.get_by_role("switch")).to_have_attribute(
            "aria-checked", "true" if position == "on" else "false"
        )


def test_a_row_of_chips_is_one_stop_and_arrows_go_along_it(visit):
    page = visit("check/", size=DESK)
    tab_to(page, lambda focus: "rf-chip" in focus["what"])
    first = page.evaluate("document.activeElement.textContent")
    page.keyboard.press("ArrowRight")
    assert page.evaluate(FOCUS)["ring"] and page.evaluate("document.activeElement.textContent") != first
    page.keyboard.press("Home")
    assert page.evaluate("document.activeElement.textContent") == first
    row = page.evaluate_handle("document.activeElement.parentNode")
    page.keyboard.press("Tab")
    assert not row.evaluate("row => row.contains(document.activeElement)")


def test_every_link_of_a_record_page_shows_the_focus(visit, catalogue):
    page = visit(page_of("port", catalogue), size=DESK)
    for _ in range(30):
        page.keyboard.press("Tab")
        focus = page.evaluate(FOCUS)
        if page.evaluate("document.activeElement.closest('main') !== null"):
            assert focus["ring"], focus["what"]


@pytest.mark.parametrize(
    "kind",
    [
        "front",
        "choosing a lead",
        "answer",
        "not found",
        "matrix",
        "port",
        "lead",
        "ports",
        "connector",
        "bench",
        "wired",
        "bag",
        "recognise",
        "cards",
        "cards chosen",
        "guide",
        "glossary",
        "coverage",
        "methods",
        "assignment",
    ],
)
def test_a_thumb_can_hit_every_control(visit, catalogue, kind):
    """Links within running text are exempt, as in 2.5.5 itself: their size is that of the line."""
    page = visit(page_of(kind, catalogue))
    page.locator("main details").evaluate_all("all => all.slice(0, 3).forEach((one) => { one.open = true; })")
    small = page.evaluate(
        """least => [...document.querySelectorAll(":is(header, main) :is(button, input, select, summary, a[href], label.md-icon)")].filter((one) => {
        const box = (one.closest("label") || one).getBoundingClientRect(), inText = one.matches("a") && getComputedStyle(one).display === "inline";
        const hidden = !one.checkVisibility({visibilityProperty: true, opacityProperty: true}) || box.width < 2 || one.closest(".md-search__inner, .md-sidebar");
        return !hidden && !inText && (box.height < least || box.width < least);
    }).map((one) => `${one.outerHTML.slice(0, 90)} ${Math.round(one.getBoundingClientRect().width)} x ${Math.round(one.getBoundingClientRect().height)}`)""",
        TOUCH - ROUNDING,
    )
    assert small == []


def test_a_lead_is_wired_by_keys_alone(visit):
    """Ends, two contacts, and the way back; the focus stays where the hand was, and
    what happened is spoken."""
    page = visit("bench/", size=DESK)
    page.locator("#rf-search").focus()
    page.keyboard.type("rca")
    for end in ("rca/plug", "rca/jack"):
        page.locator(f'.rf-picker__list [data-id="{end}"]').focus()
        page.keyboard.press("Enter")
    expect(page.locator(".rf-bench__work")).to_be_focused()
    for contact in ("a.centre", "b.centre"):
        for _ in range(12):
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.dataset.key") == f"contact {contact}":
                break
        page.keyboard.press("Enter")
        expect(page.locator(f'[data-key="contact {contact}"]')).to_be_focused()
    expect(page.locator("#rf-status")).to_contain_text("Centre of RCA jack joined to centre of RCA plug")


def test_the_bag_is_packed_by_keys_alone(visit, catalogue):
    page = visit("bag/", size=DESK)
    lead = CHAINS["safe"][1][0]
    page.get_by_role("searchbox", name="Search this list").focus()
    page.keyboard.type(catalogue.leads[lead].name)
    for _ in range(30):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.dataset.key") == f"tick {lead}":
            break
    page.keyboard.press("Space")
    expect(page.locator("#rf-status")).to_have_text(f"{catalogue.leads[lead].name} in the bag")
    assert page.evaluate("document.activeElement.type") == "checkbox"
