"""Own numbers on the phone: typed, judged at once, kept, shared, removed; nonsense refused; a store that is
forbidden or full; a link that means harm."""

import re

import pytest
from answers import address
from own_typed import ASK, CHAIN, head, typed
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

FULL = (
    "Object.defineProperty(Storage.prototype, 'setItem', { value() { throw new DOMException('full', "
    "'QuotaExceededError'); } });"
)
FORBIDDEN = """for (const name of ['getItem', 'setItem']) { const was = Storage.prototype[name];
  Storage.prototype[name] = function (key, ...rest) {
  if (String(key).startsWith('ringfence.')) throw new DOMException('refused', 'SecurityError');
    return was.call(this, key, ...rest); }; }"""


def test_from_red_to_safe_and_back(visit):
    page = visit(address(*CHAIN))
    expect(head(page)).to_have_text("Dangerous")
    typed(page, "63")
    expect(head(page)).to_have_text("Safe, by your number: 63\u00a0V")
    assert page.url.endswith(f"&own={ASK}:63_V")
    banner = page.locator(".rf-banner")
    assert banner.locator("svg").first.get_attribute("data-mark") == "own-safe", "a mark of its own"
    assert banner.locator("use").count() == 0, "not the mark of a catalogue verdict"
    page.locator("[data-key=without]").click()
    expect(page.locator(".rf-own__alone")).to_contain_text("By the catalogue alone")
    expect(page.locator(".rf-own__alone .rf-verdict--dangerous")).to_be_visible()
    page.go_back()
    expect(head(page)).to_have_text("Dangerous")
    page.go_forward()
    expect(head(page)).to_contain_text("63\u00a0V")
    page.reload()
    expect(head(page)).to_have_text("Safe, by your number: 63\u00a0V")
    page.locator(f'[data-ask="{ASK}"]').click()
    page.locator("[data-key='take out']").click()
    expect(head(page)).to_have_text("Dangerous")
    assert "own=" not in page.url


def test_a_worse_number_makes_it_worse(visit):
    page = visit(f"{address(*CHAIN)}&own={ASK}:16_V")
    expect(head(page)).to_have_text("Dangerous, by your number: 16\u00a0V")
    assert page.locator(".rf-banner use").first.get_attribute("href") == "#mark-dangerous", (
        "a danger keeps the mark of danger"
    )


def test_what_to_do_is_not_taken_from_the_table(visit):
    """By the catalogue's numbers the lead in hand is the best; by this one it is not even good."""
    question = "mixer-line-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-line-in-xlr"
    page = visit(f"{address(*question)}&own=into.main.maximum-input-level:0.775_V")
    expect(head(page)).to_have_text("Lossy, by your number: 0.775\u00a0V")
    expect(page.locator(".rf-do")).to_contain_text("pad")
    expect(page.locator(".rf-do")).not_to_contain_text("instead")


def test_a_danger_that_rests_on_something_else_stays_and_says_so(visit):
    page = visit(f"{address(*CHAIN)}&own=from.main.maximum-output-level:-20_dBV")
    expect(head(page)).to_have_text("Dangerous")
    expect(page.locator(".rf-banner__own")).to_have_text(
        re.compile(
            r"Your number, −20 dBV, does not settle it: what decides is the output capacitor of the .* leg"
        )
    )


@pytest.mark.parametrize(
    "number, why",
    [
        ("4800", "Phantom is 48 V"),
        ("4,800", "may be 4800 or 4.800"),
        ("63 apples", "'apples' is no unit here"),
        ("", "Type the number first"),
    ],
)
def test_nonsense_is_refused_with_the_reason_and_nothing_is_lost(visit, number, why):
    page = visit(address(*CHAIN))
    typed(page, number)
    fault = page.locator(f'[data-own="{ASK}"] .rf-own__fault')
    expect(fault).to_contain_text(why)
    assert page.locator(f'[data-own="{ASK}"] input').input_value() == number
    expect(head(page)).to_have_text("Dangerous")


def test_yes_and_silent(visit):
    page = visit(address(*CHAIN))
    ask = "from.main.may-meet-phantom"
    page.locator(f'[data-ask="{ask}"]').click()
    page.locator(f'[data-own="{ask}"] [data-answer=yes]').click()
    expect(head(page)).to_have_text("Safe, by your manual")
    page.locator(f'[data-ask="{ask}"]').click()
    page.locator(f'[data-own="{ask}"] [data-answer=silent]').click()
    expect(head(page)).to_have_text("Dangerous")


@pytest.mark.parametrize(
    "broken, words", [(FULL, "store is full"), (FORBIDDEN, "keeps nothing")], ids=["full", "forbidden"]
)
def test_a_store_that_refuses_is_said_and_the_number_stands(visit, broken, words):
    page = visit("plugs/")
    page.add_init_script(broken)
    page.goto(address(*CHAIN))
    typed(page, "63")
    expect(head(page)).to_have_text("Safe, by your number: 63\u00a0V")
    expect(page.locator(".rf-own__fault").filter(has_text=words)).to_be_visible()
    page.reload()
    expect(head(page)).to_have_text("Safe, by your number: 63\u00a0V")


def test_what_nobody_wrote_in_the_store_is_left_alone(visit):
    page = visit("plugs/")
    page.evaluate("localStorage.setItem('ringfence.own', '{not json')")
    page.goto("mine/")
    expect(page.locator(".rf-own__fault").filter(has_text="cannot be read")).to_be_visible()
    assert page.evaluate("localStorage.getItem('ringfence.own')") == "{not json"


@pytest.mark.parametrize(
    "own",
    [
        "<img src=x onerror=window.pwned=1>",
        "from.__proto__:1_V",
        "from.main.highest-volts-at-output:<script>",
        "from.constructor:63_V",
        "x" * 50_000,
        "from.main.highest-volts-at-output:99999_V",
        "into.main.highest-volts-at-output:63_V",
    ],
)
def test_a_hostile_number_in_an_address_is_inert(visit, own):
    page = visit(f"{address(*CHAIN)}&own={own}")
    expect(head(page)).to_have_text("Dangerous")
    assert page.evaluate("[window.pwned, Object.prototype.pwned, ({}).settled]") == [None, None, None]


@pytest.mark.parametrize(
    "link",
    [
        "#v=1&device=__proto__~x",
        "#v=9&device=mic-electret-battery-xlr~x",
        "#v=1&device=" + "a" * 40_000,
        "#v=1&device=mic-electret-battery-xlr~%3Cimg%20src%3Dx%20onerror%3Dwindow.pwned%3D1%3E~main.highest-volts-at-output:9e9_V",
    ],
)
def test_a_hostile_device_is_inert(visit, link):
    page = visit(f"mine/{link}")
    expect(page.locator(".rf-unknown")).to_be_visible()
    expect(page.locator(".rf-mine")).to_have_count(0)
    assert page.evaluate("window.pwned") is None
    assert page.locator("#rf-mine img").count() == 0


def test_the_verdict_leads_to_the_number_that_decides(visit):
    page = visit(address(*CHAIN))
    page.locator("[data-key=manual]").click()
    field = (
        page.locator("section.rf-own input")
        .first.or_(page.locator("section.rf-own [data-answer]").first)
        .first
    )
    expect(field).to_be_in_viewport()
    expect(page.locator("section.rf-own [aria-expanded=true]")).to_have_count(1)
    expect(
        visit(address("mic-dynamic-xlr", CHAIN[1], "mixer-mic-in-xlr")).locator("[data-key=manual]")
    ).to_have_count(0)


def test_what_is_half_typed_is_there_when_the_page_is_loaded_again(visit):
    page = visit(address(*CHAIN))
    page.locator(f'[data-ask="{ASK}"]').click()
    page.locator(f'[data-own="{ASK}"] input').fill("6")
    page.reload()
    page.locator(f'[data-ask="{ASK}"]').click()
    field = page.locator(f'[data-own="{ASK}"] input')
    expect(field).to_have_value("6")
    field.fill("63")
    page.locator(f'[data-own="{ASK}"] [data-key=judge]').click()
    expect(head(page)).to_have_text("Safe, by your number: 63\u00a0V")
    page.locator(f'[data-ask="{ASK}"]').click()
    page.locator("[data-key='take out']").click()
    expect(head(page)).to_have_text("Dangerous")
    page.locator(f'[data-ask="{ASK}"]').click()
    expect(page.locator(f'[data-own="{ASK}"] input')).to_have_value("")


def test_drawings_stay_where_only_a_number_changes(visit):
    page = visit(address(*CHAIN))
    expect(page.locator(".rf-answer:not([aria-busy]) .rf-chain")).to_be_attached()
    page.evaluate("document.querySelector('.rf-chain').dataset.stays = 'yes'")
    typed(page, "63")
    expect(head(page)).to_have_text("Safe, by your number: 63\u00a0V")
    expect(page.locator(".rf-answer:not([aria-busy]) .rf-chain[data-stays=yes]")).to_be_attached()
    expect(page.locator(".rf-chain")).to_have_count(1)
    assert page.locator(".rf-chain__marked, .rf-thumb__marked").count() == 0, (
        "nothing is marked where nothing decides"
    )


def test_no_old_verdict_stands_while_a_number_is_long_in_judging(visit):
    page = visit(address(*CHAIN))
    expect(page.locator(".rf-answer:not([aria-busy]) .rf-own li").first).to_be_attached()
    # the worker hears nothing any more
    page.evaluate(
        "() => { Worker.prototype.postMessage = () => null; Ringfence.judging.PATIENCE.grace = 1e9; }"
    )
    typed(page, "63")
    expect(head(page)).to_have_text("Judging by your number …")
    expect(page.locator("[data-verdict]")).to_have_count(0)
