"""What an answer tells and how it looks: where it is decided, what you get, what would do it."""

import re

import pytest
from answers import CHAINS, address, shown
from chosen import KINDER, SWITCHED, knob
from playwright.sync_api import expect

from generator.engine import judge

pytestmark = pytest.mark.browser


def test_the_chain_marks_where_it_is_decided(visit):
    """The output whose capacitor stands less than phantom gives; with phantom off, what
    decides is another thing."""
    page = visit(address(*SWITCHED))
    marked = page.locator(".rf-chain__marked")
    expect(marked).to_have_count(1)
    expect(marked).to_have_attribute("data-place", "from")
    expect(marked.locator(".rf-chain__here")).to_have_text(
        re.compile("^Decided here: output capacitor or stage")
    )
    knob(page).tap()
    expect(page.locator(".rf-chain__here")).to_have_text("Decided on the way: left to signal")
    expect(marked).to_have_count(5)  # three pictures and the two joints between them


def test_nothing_is_marked_where_nothing_decides(visit):
    page = visit(address(*CHAINS["safe"]))
    shown(page)
    assert page.locator(".rf-chain__marked, .rf-chain__here").count() == 0


SPACED = (
    "main * { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important; "
    "} main p { margin-bottom: 2em !important; }"
)
CUT = """() => [...document.querySelectorAll("main *")].filter((one) => {
    const style = getComputedStyle(one), hides = [style.overflowX, style.overflowY].some((way) =>
      way === "hidden" || way === "clip");
    return one.checkVisibility() && hides && !one.closest(".rf-hidden, .rf-sheet, svg, .rf-check-head") &&
      (one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1);
}).map((one) => one.outerHTML.slice(0, 120))"""


@pytest.mark.parametrize(
    "path",
    [
        "check/",
        "check/#from=mic-lavalier-two-wire-35&through=phone-35-trs-jack-to-mini-xlr-4-f-two-wire",
        KINDER,
    ],
)
@pytest.mark.parametrize("width", [320, 640])  # 640: a window of 1280 at 200 %
def test_text_set_wide_is_not_cut(visit, path, width):
    """WCAG 2.2, 1.4.12 Text Spacing and 1.4.10 Reflow."""
    page = visit(path, size={"width": width, "height": 800}, bypass_csp=True)
    page.locator(".rf-option, .rf-share").first.wait_for()
    page.add_style_tag(content=SPACED)
    assert page.evaluate(CUT) == []
    assert page.evaluate("document.documentElement.scrollWidth") == width


def test_what_is_the_same_on_two_channels_is_told_once(visit, catalogue):
    chain = "mixer-line-out-xlr", ("xlr-f-to-35-trs-both-3-open",), "camera-mic-in-35"
    hot = [
        finding for finding in judge(catalogue, *chain).as_data()["findings"] if finding["id"] == "too-hot"
    ]
    assert [finding["where"] for finding in hot] == ["signal to left", "signal to right"]
    page = visit(address(*chain))
    shown(page)
    card = page.locator('.rf-finding[data-finding="too-hot"]')
    expect(card).to_have_count(1)
    expect(card.locator("div", has=page.locator("dt", has_text="Also")).locator("dd").first).to_have_text(
        "signal to right"
    )


def test_findings_are_told_by_whether_the_switches_matter(visit):
    page = visit(KINDER)
    expect(page.locator(".rf-reach")).to_have_text(["In every setting"])
    knob(page).tap()
    expect(page.locator(".rf-reach")).to_have_text(["Only with phantom 48 V on", "In every setting"])


def test_a_supply_of_three_positions_is_a_list(visit):
    """None stands in the catalogue; a record may bring one at any time (`states` of a supply)."""
    page = visit(address(*SWITCHED))
    shown(page)
    page.evaluate("""() => {
        const { check, engine } = Ringfence, states = ["48 V", "12 V", "off"], verdicts = ["dangerous",
          "lossy", "safe"];
        const judged = { verdict: "dangerous", conditions: "", findings: [],
          settings: states.map((state, i) => ({ supplies: { feed: state }, verdict: verdicts[i] })) };
        engine.hold(judged, { settings: states.map((state, i) => [new Map([["feed", state]]), verdicts[i]]),
          group: [], beside: [], names: new Map([["feed", "phantom feed"]]) });
        const question = { from: "mic-dynamic-xlr", through: [], into: "mixer-line-in-xlr" },
          board = check.switchboard(judged, question, (set) => {
            window.turned = set;
            board.show(check.position(judged, question, set));
        });
        board.show(check.position(judged, question, []));
        document.querySelector(".rf-switches").replaceWith(board.element);
    }""")
    feed = page.get_by_label("Phantom feed")
    assert feed.evaluate("list => list.value") == "48 V" and feed.bounding_box()["height"] >= 44
    feed.select_option("12 V")
    assert page.evaluate("window.turned") == [["feed", "12-V"]]
    expect(page.locator(".rf-set__head")).to_have_text("With phantom feed 12 V: lossy")


def test_a_safe_answer_tells_what_you_get(visit, size):
    page = visit(
        "check/#from=mic-condenser-p48-xlr&through=xlr-f-to-xlr-m-3m&into=mixer-mic-in-p48-xlr", size=size
    )
    told = page.locator(".rf-got [data-figure]")
    page.get_by_text("What you get, in numbers").click()
    expect(told.first).to_be_visible()
    names = [one.get_attribute("data-figure") for one in told.all()]
    assert {"volts-left", "room-at-the-top", "hum-held-back", "load-seen"} <= set(names)
    expect(page.locator("[data-figure=volts-left]")).to_contain_text("31.7 V and needs 29 V or more")


def test_a_power_lead_is_answered_in_words_of_power(visit, size):
    page = visit(
        "check/#from=battery-tap-out&through=battery-tap-to-xlr-4-f&into=camera-dc-in-xlr-4", size=size
    )
    expect(page.locator("[data-verdict]").first).to_have_attribute("data-verdict", "safe")
    expect(page.locator(".rf-banner__says")).to_have_text(
        "Power arrives the right way round, there is enough of it, and no limit is passed."
    )
    page.get_by_text("What you get, in numbers").click()
    expect(page.locator("[data-figure=volts-left]")).to_be_visible()
    assert not page.locator("[data-figure=treble-kept], [data-figure=hum-left], .rf-hum-fold").count()


def test_a_power_lead_with_plus_and_minus_swapped_says_so(visit):
    page = visit(
        "check/#from=battery-tap-out&through=battery-tap-to-xlr-4-f-reversed&into=camera-dc-in-xlr-4"
    )
    expect(page.locator(".rf-banner__means")).to_have_text(
        "Harmful: plus and minus swapped and too much current."
    )
    expect(page.locator(".rf-do")).to_have_text("Do this: take Tap to XLR-4 female power lead instead.")
    page.goto("check/#from=battery-tap-out&through=battery-tap-to-xlr-4-f&into=camera-dc-in-xlr-4")
    shown(page)
    expect(page.locator(".rf-banner")).not_to_contain_text("swapped")


def test_two_leads_in_a_row_are_found_on_request_and_one_tap_away(visit, size):
    """common practice: a keyboard goes into a microphone input through an adapter and a
    pad that blocks phantom."""
    page = visit(
        "check/#from=keyboard-line-out-635&through=phone-635-ts-to-xlr-m-3-to-1&into=mixer-mic-in-p48-xlr",
        size=size,
    )
    page.get_by_role("button", name="Look for two or three leads in a row").click()
    expect(page.locator(".rf-further [role=status]")).to_have_text("Found a safe way.")
    page.locator(".rf-further a.rf-option").first.click()
    expect(page.locator("[data-verdict]").first).to_have_attribute("data-verdict", "safe")


def test_where_nothing_does_it_the_lead_that_would_is_described(visit):
    page = visit(
        "check/#from=loudspeaker-amp-out-635&through=phone-635-ts-to-635-ts-3m&into=mixer-line-in-635"
    )
    page.get_by_role("button", name="Look for two or three leads in a row").click()
    expect(page.locator(".rf-further [role=status]")).to_have_text(
        "No chain of up to three leads works without harm."
    )
    expect(page.locator(".rf-further__missing")).to_contain_text("is a direct box made for loudspeaker level")


def test_a_search_can_be_stopped(visit):
    page = visit("check/#from=mic-dynamic-xlr&through=xlr-f-to-35-trrs-mic-lrgm&into=phone-headset-jack-lrgm")
    page.get_by_role("button", name="Look for two or three leads in a row").click()
    page.get_by_role("button", name="Stop").click()
    expect(page.locator(".rf-further [role=status]")).to_have_text("Stopped.")
