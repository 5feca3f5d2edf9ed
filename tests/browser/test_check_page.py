"""The check as a person uses it: two taps to the ways, a lead of one's own to an answer, which is Python's; a
link that gives it again; ways out that keep their promise."""

import re
from urllib.parse import urlsplit

import pytest
from answers import CHAINS, address, expected, listed, shown
from conftest import PHONE, until
from playwright.sync_api import expect

from generator.engine import judge

pytestmark = pytest.mark.browser


def pick(page, catalogue, start, through, into):
    """Choose by the names a person reads; every choice is one tap (a click where
    there is no touch screen)."""
    leads = [catalogue.leads[lead].name for lead in through] or ["None"]
    touch = page.evaluate("navigator.maxTouchPoints > 0")

    def press(entry):
        entry.tap() if touch else entry.click()

    def choose(name):
        press(
            page.locator(
                ".rf-picker button", has=page.locator(".rf-option__name").get_by_text(name, exact=True)
            )
        )

    choose(catalogue.ports[start].name)
    choose(catalogue.ports[into].name)
    for name in leads:
        press(page.locator(".rf-step__open[data-step=through]"))
        choose(name)


@pytest.mark.parametrize("verdict", CHAINS)
def test_two_ends_and_a_lead_give_the_answer_of_python(visit, catalogue, size, verdict):
    page = visit("check/", size=size)
    pick(page, catalogue, *CHAINS[verdict])
    answer = shown(page)
    assert answer == expected(catalogue, *CHAINS[verdict])
    assert answer.verdict == verdict
    assert page.url.endswith(address(*CHAINS[verdict]))


def test_a_port_goes_straight_into_another(visit, catalogue):
    chain = "mic-dynamic-xlr", (), "mixer-mic-in-p48-xlr"
    page = visit()  # the front page is the check
    pick(page, catalogue, *chain)
    assert shown(page) == expected(catalogue, *chain)


@pytest.mark.parametrize("verdict", CHAINS)
def test_a_verdict_is_a_word_and_a_shape(visit, size, verdict):
    page = visit(address(*CHAINS[verdict]), size=size)
    banner = page.locator(".rf-banner[data-verdict]")
    slug = verdict.replace(" ", "-")
    assert banner.locator("use").get_attribute("href") == f"#mark-{slug}"
    drawn = banner.locator("svg.rf-mark").bounding_box()
    assert min(drawn["width"], drawn["height"]) >= 24
    assert page.locator(f"#mark-{slug} > *").count() >= 1, "the shape is drawn"
    assert len({page.locator(f"#mark-{name.replace(' ', '-')}").inner_html() for name in CHAINS}) == len(
        CHAINS
    ), "every verdict has its own"
    word = banner.locator("h2").bounding_box()
    assert word["y"] + word["height"] < size["height"], "the verdict stands above the fold"


@pytest.mark.parametrize("verdict", CHAINS)
def test_the_address_gives_the_same_answer_to_anyone(visit, catalogue, verdict):
    first = visit("check/")
    pick(first, catalogue, *CHAINS[verdict])
    told = shown(first)
    parts = urlsplit(first.url)
    assert shown(visit(f"{parts.path}#{parts.fragment}")) == told


def test_a_chain_that_does_not_fit_is_answered_too(visit, catalogue):
    chain = "mic-dynamic-xlr", ("xlr-f-to-xlr-m-3m",), "player-line-out-rca"
    if chain[2] not in catalogue.ports:
        chain = (*chain[:2], next(port.id for port in catalogue.ports.values() if port.connector == "rca"))
    answer = shown(visit(address(*chain)))
    assert (answer.verdict, answer.says) == ("does not fit", expected(catalogue, *chain).says)


@pytest.mark.parametrize("verdict", ["lossy", "no signal", "dangerous"])
def test_what_to_use_instead_leads_to_what_it_promised(visit, catalogue, verdict):
    page = visit(address(*CHAINS[verdict]))
    before = shown(page)
    ways = page.locator(".rf-remedies > ul a")
    if not ways.count():
        expect(page.locator(".rf-remedies")).to_contain_text(
            "No single lead in this catalogue does better between these two."
        )
        return
    for way in range(ways.count()):
        promised = ways.nth(way).locator(".rf-verdict").inner_text()
        target = ways.nth(way).evaluate("link => link.hash")
        ways.nth(way).tap()
        expect(page).to_have_url(re.compile(re.escape(target)))
        expect(page.locator(".rf-answer:not([aria-busy]) .rf-banner")).to_have_attribute(
            "data-verdict", promised
        )
        start, through, into = re.fullmatch(r"#from=(.*)&through=(.*)&into=(.*)", target).groups()
        assert shown(page) == expected(catalogue, start, [lead for lead in through.split(",") if lead], into)
        page.go_back()
        expect(page).not_to_have_url(re.compile(re.escape(target)))
        expect(page.locator(".rf-answer:not([aria-busy]) .rf-banner")).to_have_attribute(
            "data-verdict", before.verdict
        )
    assert shown(page) == before


def test_no_supply_is_switched_on_without_need(visit, catalogue):
    """A ribbon microphone on a splitter is as safe with both supplies off as with both
    on; the advice is off."""
    chain = "mic-ribbon-xlr", ("xlr-f-to-two-xlr-m",), "mixer-mic-in-p48-xlr"
    page = visit(address(*chain))
    ends = {words: verdict for words, verdict in shown(page).settings}
    both_off = next(words for words in ends if words.count(" off") == 2)
    assert ends[both_off] == "safe" and sorted(ends.values()).count("safe") > 1
    words = both_off[0].lower() + both_off[1:]
    expect(page.locator(".rf-switch")).to_have_text(f"Before plugging, set {words}: then it is safe.")


def test_back_takes_back_one_choice_at_a_time(visit, catalogue):
    page = visit("check/")
    pick(page, catalogue, *CHAINS["safe"])
    shown(page)
    for question in ("Which lead?", "What does it go into?", "What have you got?"):
        page.go_back()
        expect(page.get_by_role("heading", name=question)).to_be_visible()
    for _ in range(3):
        page.go_forward()
    assert shown(page) == expected(catalogue, *CHAINS["safe"])


def test_one_part_of_the_question_can_be_changed(visit, catalogue):
    page = visit(address(*CHAINS["safe"]))
    page.locator(".rf-step__open[data-step=through]").tap()
    page.get_by_role("searchbox").fill("polarity")
    lead = listed(page).first
    name = lead.locator(".rf-option__name").inner_text()
    lead.tap()
    chosen = next(one.id for one in catalogue.leads.values() if one.name == name)
    start, _, into = CHAINS["safe"]
    expect(page).to_have_url(re.compile(f"through={chosen}&"))
    assert shown(page) == expected(catalogue, start, [chosen], into)


def with_leads_open(visit, outlet):
    """The check with what one has chosen, and the list of leads open: for who has a certain lead."""
    page = visit(f"check/#from={outlet}")
    page.locator("[data-step=through]").tap()
    return page


def test_the_list_says_what_it_hides_and_why(visit, catalogue):
    page = with_leads_open(visit, "mic-dynamic-xlr")
    offered = listed(page).count()
    assert 0 < offered < len(catalogue.leads)
    page.locator(".rf-why summary").tap()
    reasons = page.locator(".rf-why li span")
    expect(reasons).to_have_count(len(catalogue.leads) - offered)
    assert all(reason.startswith("Its ends are ") for reason in reasons.all_inner_texts())


def test_a_list_grows_only_at_its_end(visit, catalogue):
    """What a thumb is aiming at stays where it is: rows come below what is there, and what stands
    under the list comes last."""
    page = visit("methods/")
    page.add_init_script(
        "window.held = []; window.frame = requestAnimationFrame; "
        "window.requestAnimationFrame = (work) => held.push(work)"
    )
    page.goto("check/#from=mic-dynamic-xlr")
    growing = page.locator(".rf-picker__list[aria-busy] .rf-option")
    growing.first.wait_for()
    tops = "all => all.map((one) => [one.dataset.id, one.getBoundingClientRect().top + scrollY])"
    before = growing.evaluate_all(tops)
    assert 0 < len(before) and page.locator(".rf-why").count() == 0
    page.evaluate("window.requestAnimationFrame = frame; held.forEach((work) => frame(work))")
    page.locator(".rf-why").wait_for()
    after = listed(page).evaluate_all(tops)
    assert after[: len(before)] == before and len(after) > len(before)


def test_no_row_of_a_list_stands_without_its_verdict(visit, catalogue):
    """With a lead and an inlet chosen each outlet is told by its verdict: also the first, where the
    table of them comes late."""
    _, through, into = CHAINS["safe"]
    page = visit("methods/")
    held = []
    page.route("**/assets/js/table.js", lambda asked: held.append(asked))
    page.goto(f"check/#through={through[0]}&into={into}", wait_until="commit")
    until(page, lambda: held)
    page.wait_for_timeout(500)
    assert page.locator(".rf-option").count() == 0
    held[0].continue_()
    told = dict(
        listed(page).evaluate_all(
            "all => all.map((one) => [one.dataset.id, one.querySelector('.rf-verdict')?.innerText])"
        )
    )
    known = {outlet: judge(catalogue, outlet, through, into).verdict for outlet in told}
    assert len(set(known.values())) > 2
    assert told == {
        outlet: None if verdict == "does not fit" else verdict for outlet, verdict in known.items()
    }


def test_the_last_answer_is_one_tap_away(visit, catalogue):
    page = visit("check/")
    pick(page, catalogue, *CHAINS["dangerous"])
    shown(page)
    page.goto("check/#from=mic-dynamic-xlr")  # begun, and left
    page.goto("methods/")
    page.goto("check/")
    page.locator(".rf-again a").tap()
    assert shown(page) == expected(catalogue, *CHAINS["dangerous"])


def test_a_choice_begun_and_left_does_not_wipe_out_the_last_answer(visit, catalogue):
    page = visit(address(*CHAINS["safe"]))
    shown(page)
    page.get_by_role("link", name="New check").tap()
    page.locator(".rf-picker__list .rf-option").first.tap()
    page.goto("methods/")
    page.goto("check/")
    page.locator(".rf-again a").tap()
    assert shown(page) == expected(catalogue, *CHAINS["safe"])


def test_the_link_to_pass_on_is_the_address(visit, catalogue):
    page = visit(address(*CHAINS["lossy"]), permissions=["clipboard-read", "clipboard-write"])
    page.get_by_role("button", name="Copy link to this answer").tap()
    expect(page.get_by_role("button", name="Copied")).to_be_visible()
    assert page.evaluate("navigator.clipboard.readText()") == page.url


# A setting kinder than the verdict, and one that keeps it: the same chain with its one switch on and off.
SWITCHED = CHAINS["dangerous"]
KINDER = f"{address(*SWITCHED)}&set=phantom:off"


def knob(page):
    return page.get_by_role("switch", name=re.compile("phantom 48 V", re.IGNORECASE))


def held(page, catalogue, position):
    """What Python finds with phantom in this position: the ids that its answer tells."""
    return {
        finding["id"]
        for finding in judge(catalogue, *SWITCHED).as_data()["findings"]
        if f"phantom 48 V {position}" in finding["when"] or "phantom" not in finding["when"]
    }


def test_a_switch_shows_its_setting_at_once(visit, catalogue, size):
    page = visit(address(*SWITCHED), size=size)
    settings = {
        setting["supplies"]["phantom"]: setting["verdict"]
        for setting in judge(catalogue, *SWITCHED).as_data()["settings"]
    }
    assert settings == {"on": "dangerous", "off": "lossy"}
    expect(page.locator(".rf-answer:not([aria-busy])")).to_be_visible()
    page.evaluate("window.sameLoad = true")
    for position in ("on", "off", "on"):
        if knob(page).get_attribute("aria-checked") != ("true" if position == "on" else "false"):
            knob(page).tap() if size is PHONE else knob(page).click()
        expect(knob(page)).to_have_attribute("aria-checked", "true" if position == "on" else "false")
        expect(page.locator(".rf-set__head")).to_have_text(
            f"With phantom 48 V {position}: {settings[position]}"
        )
        assert set(
            page.locator(".rf-findings .rf-finding").evaluate_all(
                "all => all.map((one) => one.dataset.finding)"
            )
        ) == held(page, catalogue, position)
        # over all settings, whatever the switch says
        expect(page.locator(".rf-banner h2")).to_have_text("Dangerous")
        expect(page.locator(".rf-settings [aria-current] th")).to_have_text(f"Phantom 48 V {position}")
    assert page.evaluate("window.sameLoad") is True


def test_the_switch_stands_in_sight_under_the_verdict(visit, size):
    page = visit(KINDER, size=size)
    expect(page.locator("section.rf-switches")).to_be_visible()
    banner, panel = page.evaluate(
        "['.rf-banner[data-verdict]', 'section.rf-switches'].map((one) => "
        "document.querySelector(one).getBoundingClientRect().toJSON())"
    )
    assert banner["bottom"] <= panel["top"] and panel["bottom"] < size["height"]


def test_the_address_carries_the_switches_and_back_undoes(visit):
    page = visit(address(*SWITCHED))
    knob(page).tap()
    expect(page).to_have_url(re.compile("&set=phantom:off$"))
    page.go_back()
    expect(knob(page)).to_have_attribute("aria-checked", "true")
    expect(page).to_have_url(re.compile(f"{re.escape(address(*SWITCHED))}$"))
    page.go_forward()
    expect(page.locator(".rf-set__head")).to_have_text("With phantom 48 V off: lossy")
    other = visit(page.url)
    expect(other.locator(".rf-set__head")).to_have_text("With phantom 48 V off: lossy")
    expect(other.locator(".rf-banner h2")).to_have_text("Dangerous")


@pytest.mark.parametrize(
    "asked", ["phantom:perhaps", "hum:off", "__proto__:off", "", "<img src=x>:off", "phantom:OFF"]
)
def test_an_address_that_names_no_position_shows_the_worst(visit, catalogue, asked):
    page = visit(f"{address(*SWITCHED)}&set={asked}")
    expect(page.locator(".rf-set__head")).to_have_text("With phantom 48 V on: dangerous")
    assert shown(page) == expected(catalogue, *SWITCHED)
    assert page.locator(".rf-unknown").count() == 0


def test_what_is_passed_on_carries_the_setting(visit):
    page = visit(address(*SWITCHED), permissions=["clipboard-read", "clipboard-write"])
    knob(page).tap()
    page.locator(".rf-share__more summary").tap()
    knob(page).tap()
    knob(page).tap()
    frame, cited = page.locator(".rf-share .rf-take__text").all_inner_texts()
    assert (
        "Verdict: dangerous over all settings, lossy with phantom 48 V off." in cited
        and "&amp;set=phantom:off" in frame
    )
    page.get_by_role("button", name="Copy link to this answer").tap()
    expect(page.get_by_role("button", name="Copied")).to_be_visible()
    assert page.evaluate("navigator.clipboard.readText()") == page.url and page.url.endswith(
        "&set=phantom:off"
    )


def test_another_lead_starts_from_the_worst_again(visit):
    page = visit(KINDER)
    page.locator(".rf-step__open[data-step=through]").tap()
    page.locator('.rf-option[data-id="phone-35-trs-to-xlr-m-tip-2"]').tap()
    expect(page).to_have_url(re.compile(f"{re.escape(address(*SWITCHED))}$"))
    expect(knob(page)).to_have_attribute("aria-checked", "true")


def test_two_switches_are_told_apart_and_turn_alone(visit):
    page = visit(address("mic-ribbon-xlr", ("xlr-f-to-two-xlr-m",), "mixer-mic-in-p48-xlr"))
    switches = page.get_by_role("switch")
    expect(switches).to_have_count(2)
    names = [switch.inner_text().split("\n")[0] for switch in switches.all()]
    assert len(set(names)) == 2, names
    before = [switch.get_attribute("aria-checked") == "true" for switch in switches.all()]
    switches.nth(1).tap()
    expect(switches.nth(1)).to_have_attribute("aria-checked", str(not before[1]).lower())
    expect(switches.nth(0)).to_have_attribute("aria-checked", str(before[0]).lower())
    expect(page).to_have_url(
        re.compile(
            f"set=phantom:{'on' if before[0] else 'off'},phantom-at-the-second-inlet:{'off' if before[1] else 'on'}$"
        )
    )


def test_nothing_to_switch_shows_no_switch(visit):
    page = visit(address("mixer-line-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-line-in-xlr"))
    shown(page)
    assert (
        page.get_by_role("switch").count() == 0
        and page.get_by_role("region", name="Supply switches").count() == 0
    )


def test_every_working_of_a_setting_opens(visit):
    page = visit(KINDER)
    buttons = page.get_by_role("button", name="Show the working")
    expect(buttons).not_to_have_count(0)
    while buttons.count():
        buttons.first.tap()
    assert page.get_by_text("The working could not be shown").count() == 0
    panels = page.locator(".rf-finding", has=page.locator(".rf-working__number"))
    for panel in panels.all():
        above, below = (
            panel.locator(one).inner_text() for one in (".rf-finding__number strong", ".rf-working__number")
        )
        assert (
            re.match("(below|under) −120 dB", above)
            and below.startswith("under −120 dB")
            or re.split(r"(?:\.0)? ", above, maxsplit=1)
            == re.split(r"(?:\.0)? ", below.split(";")[0], maxsplit=1)
        )


@pytest.mark.parametrize(
    "typed, found",
    [
        ("lav", "mic-lavalier-two-wire-35"),
        ("3.5mm", "player-line-out-35"),
        ("minijack", "player-line-out-35"),
        ("radio mic", "wireless-receiver-out-xlr"),
        ("laptop", "computer-headphone-out-35"),
        ("comms", "party-line-supply-xlr"),
        ("P48 condenser", "mic-condenser-p48-xlr"),
    ],
)
def test_a_trade_word_finds_the_device(visit, typed, found):
    """Words of the trade, from memory."""
    page = visit("check/")
    page.get_by_role("searchbox").fill(typed)
    expect(page.locator(f'.rf-picker__list .rf-option[data-id="{found}"]')).to_be_visible()
    assert 0 < listed(page).count() < 40


def test_a_search_for_what_does_not_fit_says_why(visit):
    page = visit("check/#from=mic-dynamic-xlr&through=xlr-f-to-xlr-m-3m")
    page.get_by_role("searchbox").fill("word clock")
    expect(page.locator(".rf-picker__none")).to_have_text(
        "Nothing that fits is called that. Below is what does not fit."
    )
    reason = page.locator(".rf-why li", has_text="Timecode input, BNC")
    expect(reason).to_contain_text("Its BNC jack does not go with XLR-3 male.")
    page.get_by_role("searchbox").fill("teapot")
    expect(page.locator(".rf-picker__none")).to_have_text(
        "Nothing here is called that. Brands are not kept here: say what kind of thing it is, or find it "
        "by its picture."
    )


@pytest.mark.parametrize("ends", ["continue_", "abort"])
def test_nothing_is_called_missing_before_the_search_is_here(visit, ends):
    """Other names come with the search: until it is here, or did not come, "lav mic" may yet be found."""
    page, held = visit("check/"), []
    page.route("**/seek.js", lambda route: held.append(route))
    page.get_by_role("searchbox").fill("teapot")
    expect(page.locator(".rf-picker__none")).to_have_text("One moment.")
    getattr(held[0], ends)()
    expect(page.locator(".rf-picker__none")).to_contain_text("Nothing here is called that.")
    # the browser tells what did not come
    page.wrong[:] = [wrong for wrong in page.wrong if not (ends == "abort" and "ERR_FAILED" in wrong)]


def test_one_tap_leaves_one_kind_of_device(visit, catalogue):
    page = visit("check/")
    chip = page.get_by_role("toolbar", name="Only this kind of device").get_by_role("button", name="Headset")
    chip.tap()
    ids = listed(page).evaluate_all("all => all.map((one) => one.dataset.id)")
    assert sorted(ids) == sorted(
        port.id for port in catalogue.ports.values() if port.device == "headset" and port.sources
    )
    chip.tap()
    expect(listed(page)).to_have_count(sum(bool(port.sources) for port in catalogue.ports.values()))


def test_every_choice_has_a_small_drawing_of_its_halves(visit, catalogue):
    page = with_leads_open(visit, "mic-dynamic-xlr")
    listed(page)
    drawn = page.locator(".rf-option--drawn").evaluate_all(
        "all => all.map((one) => [one.dataset.id, "
        "...[...one.querySelectorAll('img.rf-side')].map((drawn) => drawn.getAttribute('src'))])"
    )
    assert drawn and all(
        len(pictures) == min(2, len(catalogue.leads[lead].ends)) for lead, *pictures in drawn
    )
    _, one, two = next(row for row in drawn if row[0] == "xlr-f-to-xlr-m-3m")
    assert one != two, "male and female are told apart"
    assert "NaN" not in str(drawn) and "Infinity" not in str(drawn)


@pytest.mark.parametrize(
    "outlet, lead",
    [
        ("mic-dynamic-xlr", "xlr-f-to-xlr-m-3m"),
        ("guitar-pickup-635", "phone-635-ts-to-635-ts-3m"),
        ("player-line-out-35", "phone-35-trs-to-35-trs"),
    ],
)
def test_the_lead_that_most_people_would_reach_for_stands_first(visit, outlet, lead):
    """Common practice: a plain cable with the same connector at both ends, before one
    that has to be warned of."""
    page = with_leads_open(visit, outlet)
    expect(page.locator(".rf-picker__list .rf-option").first).to_have_attribute("data-id", lead)


def test_what_was_chosen_last_time_stands_first(visit, catalogue):
    page = visit("check/")
    pick(page, catalogue, *CHAINS["lossy"])
    shown(page)
    page.goto("methods/")
    page.goto("check/")
    for step, chosen in (
        ("from", CHAINS["lossy"][0]),
        ("into", CHAINS["lossy"][2]),
        ("through", CHAINS["lossy"][1][0]),
    ):
        # both ends are chosen, and the ways are told; this is for who has a certain lead
        if step == "through":
            page.locator("[data-step=through]").tap()
        first = page.locator(".rf-picker__group").first
        expect(first.get_by_role("heading")).to_have_text("Last time")
        expect(first.locator(".rf-option")).to_have_attribute("data-id", chosen)
        first.locator(".rf-option").tap()
    assert shown(page) == expected(catalogue, *CHAINS["lossy"])


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
    const style = getComputedStyle(one), hides = [style.overflowX, style.overflowY].some((way) => way === "hidden" || way === "clip");
    return one.checkVisibility() && hides && !one.closest(".rf-hidden, .rf-sheet, svg, .rf-check-head") && (one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1);
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
        const { check, engine } = Ringfence, states = ["48 V", "12 V", "off"], verdicts = ["dangerous", "lossy", "safe"];
        const judged = { verdict: "dangerous", conditions: "", findings: [], settings: states.map((state, i) => ({ supplies: { feed: state }, verdict: verdicts[i] })) };
        engine.hold(judged, { settings: states.map((state, i) => [new Map([["feed", state]]), verdicts[i]]), group: [], beside: [], names: new Map([["feed", "phantom feed"]]) });
        const question = { from: "mic-dynamic-xlr", through: [], into: "mixer-line-in-xlr" }, board = check.switchboard(judged, question, (set) => {
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
