"""Judging beside the page: in a worker where there can be one, in the page where there cannot, the same
answer either way and never an older one."""

import re

import pytest
from answers import CHAINS, address, expected, shown
from conftest import becomes, until
from own_typed import typed
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

NO_WORKER = "delete window.Worker;"
SPLITTER = "mixer-stereo-line-out-xlr-5", ("xlr-5-f-to-two-xlr-m",), "camera-mic-in-p48-xlr"  # takes seconds
OWN = "mic-electret-battery-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"
BY_OWN = f"{address(*OWN)}&own=from.main.highest-volts-at-output:63_V"
BROKEN_HERE = (
    "() => { for (const kind of Object.keys(Ringfence.judging.KINDS)) Ringfence.judging.KINDS[kind] = () => "
    "{ throw new Error('judged in the page'); }; }"
)


def workers(page):
    """Their scripts; two workers at most, for what takes long has one of its own."""
    assert len(page.workers) <= 2
    return sorted({worker.url.rsplit("/", 1)[1] for worker in page.workers})


def ready(page):
    """A worker that knows the engine; on a busy machine that may take longer than the first answer."""
    until(page, lambda: page.workers)
    until(
        page,
        lambda: page.workers[0].evaluate(
            "typeof Ringfence === 'object' && typeof Ringfence.engine?.judge === 'function'"
        ),
    )
    page.evaluate(BROKEN_HERE)


def asked(page, *chain):
    page.evaluate("(hash) => { location.hash = hash; }", address(*chain).removeprefix("check/"))


def altered(page, more):
    """The page's next worker, with a line more at its end."""

    def answer(route):
        got = route.fetch()
        route.fulfill(response=got, body=got.text() + more)

    page.context.route("**/worker.js", answer)


def told(page):
    """All of an answer in words, once everything that comes later is there."""
    expect(page.locator(".rf-answer:not([aria-busy]) .rf-banner[data-verdict]")).to_be_visible()
    expect(page.locator(".rf-own > h3")).to_be_attached()
    expect(
        page.locator(".rf-answer").get_by_role("link", name="New check")
    ).to_be_attached()  # among the last
    becomes(page, "[...document.querySelectorAll('.rf-hum__both')].every((one) => one.textContent !== '…')")
    becomes(
        page,
        "[...document.querySelectorAll('.rf-remedies [role=status]')].every((one) => "
        "!one.textContent.endsWith('…'))",
    )
    return page.locator(".rf-answer").evaluate("(answer) => answer.textContent").replace("Copied", "")


@pytest.mark.parametrize("kind", CHAINS)
def test_a_worker_judges_and_not_the_page(visit, catalogue, kind):
    page = visit(address(*CHAINS["safe" if kind != "safe" else "lossy"]))
    shown(page)
    ready(page)
    asked(page, *CHAINS[kind])
    expect(page.locator(".rf-banner")).to_have_attribute("data-verdict", kind)
    assert shown(page) == expected(catalogue, *CHAINS[kind])
    assert workers(page) == ["worker.js"]
    page.get_by_role("button", name="Show the working").first.click()
    expect(page.locator(".rf-working__panel").first).to_contain_text("The case")


@pytest.mark.parametrize("where", [*CHAINS, "by own number"])
def test_worker_and_page_say_the_same(visit, where):
    place = BY_OWN if where == "by own number" else address(*CHAINS[where])
    beside = visit(place)
    said = told(beside)
    assert workers(beside) == ["worker.js"]
    alone = visit("methods/")
    alone.add_init_script(NO_WORKER)
    alone.goto(place)
    assert told(alone) == said and workers(alone) == []
    alone.get_by_role("button", name="Show the working").first.click()
    beside.get_by_role("button", name="Show the working").first.click()
    for page in (alone, beside):
        expect(page.locator(".rf-working__panel").first).to_contain_text(
            "The number" if where in ("no signal", "dangerous") else "The case"
        )
    assert (
        alone.locator(".rf-working__panel").first.text_content()
        == beside.locator(".rf-working__panel").first.text_content()
    )


def test_an_answer_never_lands_under_a_newer_question(visit, catalogue):
    page = visit(address(*CHAINS["safe"]))
    shown(page)
    page.evaluate("""() => { window.seen = []; new MutationObserver(() => {
        const now = document.querySelector(".rf-banner[data-verdict]"),
        chain = document.querySelector(".rf-chain");
        if (now && chain && !now.closest("[aria-busy]")) window.seen.push([location.hash, chain.textContent]);
          }).observe(document.getElementById("rf-check"), { childList: true, subtree: true }); }""")
    asked(page, *SPLITTER)
    asked(page, *CHAINS["dangerous"])
    expect(page.locator(".rf-banner")).to_have_attribute("data-verdict", "dangerous")
    asked(page, *SPLITTER)
    expect(page.locator(".rf-answer")).to_have_attribute("aria-busy", "true")
    expect(page.locator(".rf-banner[data-verdict]")).to_be_visible()
    name = catalogue.leads[SPLITTER[1][0]].name
    expect(page.locator(".rf-answer:not([aria-busy])")).to_be_visible()
    seen = page.evaluate("seen")
    assert (
        seen
        and [(hash, name in chain) for hash, chain in seen if (SPLITTER[0] in hash) != (name in chain)] == []
    )
    assert shown(page) == expected(catalogue, *SPLITTER)


def test_a_tap_is_answered_while_a_splitter_is_judged(visit):
    page = visit(address(*CHAINS["safe"]))
    shown(page)
    asked(page, *SPLITTER)
    expect(page.locator(".rf-answer[aria-busy] .rf-answer__head")).to_be_visible()
    page.locator(".rf-step__open[data-step=into]").click()
    expect(page.locator(".rf-picker__title")).to_be_visible()
    assert page.locator(".rf-banner[data-verdict]").count() == 0
    page.wait_for_timeout(1500)
    expect(page.locator(".rf-picker__title")).to_be_visible()
    assert page.locator(".rf-answer").count() == 0, "what was left is not answered later"


def test_a_typed_number_does_not_wait_for_what_is_ranked(visit):
    """Ranking that never ends, within one connection, where no worker can listen."""
    page = visit("methods/")
    altered(page, "Ringfence.judging.KINDS.each = function* () { for (;;); };\n")
    page.goto(address(*OWN))
    head = page.locator(".rf-answer__head")
    expect(head).to_have_text("Dangerous")
    ready(page)
    page.evaluate("void Ringfence.judging.ask('each', { requests: [] }, { lane: 'endless' })")
    until(page, lambda: len(page.workers) == 2)
    typed(page, "63")
    expect(head).to_have_text("Safe, by your number: 63\u00a0V")


def test_a_worker_of_another_edition_answers_nothing_and_the_page_does(visit, catalogue):
    page = visit("methods/")
    altered(
        page,
        'Ringfence.editions = { ...Ringfence.editions, data: "00000000" }; '
        'Ringfence.engine.judge = () => ({ verdict: "safe", findings: [], settings: [] });\n',
    )
    page.goto(address(*CHAINS["dangerous"]))
    assert shown(page) == expected(catalogue, *CHAINS["dangerous"])
    assert workers(page) == []


def test_nothing_milder_than_the_table_is_taken_from_a_worker(visit):
    page = visit("methods/")
    altered(
        page,
        """Ringfence.engine.judge = () => ({ verdict: "safe", findings: [], settings: [], figures: [],
            conditions: "", offer: "", offered: "" });\n""",
    )
    page.goto(address(*CHAINS["dangerous"]))
    banner = page.locator(".rf-banner")
    expect(banner).to_contain_text("Dangerous, from the table")
    expect(banner).to_contain_text("The calculation in this browser came out milder than it should.")


def test_where_the_worker_does_not_load_the_page_judges(visit, catalogue):
    page = visit("methods/")
    page.context.route("**/worker.js", lambda route: route.abort())
    page.goto(address(*CHAINS["lossy"]))
    assert shown(page) == expected(catalogue, *CHAINS["lossy"])
    # which is what the test brought about
    page.wrong[:] = [wrong for wrong in page.wrong if "ERR_FAILED" not in wrong]


def test_own_numbers_are_judged_by_the_worker(visit):
    page = visit(BY_OWN)
    head = page.locator(".rf-answer__head")
    expect(head).to_have_text("Safe, by your number: 63\u00a0V")
    ready(page)
    page.evaluate(
        "(hash) => { location.hash = hash; }", BY_OWN.removeprefix("check/").replace("63_V", "16_V")
    )
    expect(head).to_have_text("Dangerous, by your number: 16\u00a0V")
    page.evaluate(
        "(hash) => { location.hash = hash; }",
        f"{address(*OWN).removeprefix('check/')}&own=from.main.maximum-output-level:-20_dBV",
    )
    expect(page.locator(".rf-banner__own")).to_have_text(
        re.compile("Your number, −20 dBV, does not settle it")
    )
    page.locator("[data-key=without]").click()
    expect(page.locator(".rf-own__alone")).to_contain_text("By the catalogue alone")


def test_the_bench_and_the_kit_are_judged_by_the_worker(visit):
    page = visit("bench/")
    page.evaluate("Ringfence.judging.begin()")
    ready(page)
    page.goto("bench/#ends=xlr-3/female,xlr-3/male&joins=a.1_b.1,a.2_b.2,a.3_b.3")
    expect(page.locator(".rf-progress")).to_contain_text("all worked out here and now")
    assert page.locator("[data-verdict='not worked out']").is_hidden() and workers(page) == ["worker.js"]
    page = visit("bag/")
    page.evaluate(
        "localStorage.setItem('ringfence.bag', JSON.stringify({ leads: ['xlr-f-to-xlr-m-3m'], ports: [], "
        "jobs: [['mic-dynamic-xlr', 'mixer-mic-in-p48-xlr']] }))"
    )
    page.reload()
    page.evaluate("Ringfence.judging.begin()")
    ready(page)
    page.locator("[data-key='tab pack']").click()
    expect(page.locator(".rf-jobs > li")).to_have_attribute("data-state", "covered")
    assert workers(page) == ["worker.js"]
