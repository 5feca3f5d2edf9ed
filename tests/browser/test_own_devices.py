"""A device of one's own: kept, named, shared, in the bag, in the matrix and on its card."""

import re

import pytest
from conftest import becomes
from own_typed import ASK, BY_OWN, CHAIN, head, kept
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


def test_a_device_is_kept_used_shared_and_removed(visit):
    page = kept(visit)
    assert re.search(r"#from=my\.[a-z0-9]+&", page.url) and "own=" not in page.url
    expect(head(page)).to_have_text("Safe, by your number: 63\u00a0V")
    page.reload()
    expect(head(page)).to_have_text("Safe, by your number: 63\u00a0V")
    shared = page.locator(".rf-share textarea").first.evaluate("area => area.value")
    assert "my." not in shared and "own=from.main.highest-volts-at-output:63_V" in shared, (
        "a link to somebody else carries the class and the number"
    )
    page.goto("mine/")
    device = page.locator(".rf-mine section")
    expect(device).to_contain_text("63 V your manual")
    device.get_by_text("Hand it on").click()
    expect(device.locator(".rf-mine__code path")).to_have_count(1)
    link = device.locator(".rf-copy textarea").first.evaluate("area => area.value")
    assert device.locator(".rf-mine__file").inner_text().strip() == (
        'name: "My reporter mic"\n'
        "same_as: mic-electret-battery-xlr\n"
        "circuit:\n"
        "  main:\n"
        "    stands: {value: 63 V, evidence: your manual}"
    )
    device.get_by_text("Name and numbers").click()
    remove = page.get_by_role("button", name="Remove My reporter mic")
    remove.click()
    expect(page.locator(".rf-mine section")).to_have_count(0)
    page.get_by_role("button", name="Undo").click()
    expect(device).to_contain_text("63 V your manual")
    expect(page.get_by_role("button", name="Undo")).to_have_count(0)
    device.get_by_text("Name and numbers").click()
    remove.click()
    expect(page.locator(".rf-mine section")).to_have_count(0)
    other = visit(link.split("/", 3)[3] if "://" in link else link)
    expect(other.locator(".rf-unknown")).to_contain_text("My reporter mic")
    expect(other.locator(".rf-mine section")).to_have_count(0)  # nothing is taken unasked
    other.locator("[data-key=take]").click()
    expect(other.locator(".rf-mine section")).to_contain_text("63 V your manual")


def test_a_device_is_found_by_the_name_it_was_given(visit):
    """Also once the search is here, which knows what is published alone."""
    page = kept(visit)
    page.goto("check/")
    field = page.locator("#rf-search")
    field.focus()
    becomes(page, "Boolean(window.Ringfence.seek && window.Ringfence.sought)")
    for typed, found in (("reporter", "My reporter mic"), ("my reporter", "My reporter mic")):
        field.fill(typed)
        expect(page.locator(".rf-picker__list:not([aria-busy]) .rf-option__name").first).to_have_text(found)


def test_a_device_stands_in_the_bag(visit):
    page = kept(visit)
    page.goto("mine/")
    page.get_by_role("button", name="Put it in my kit").click()
    page.goto("bag/")
    page.locator("[data-key='kind ports']").click()
    expect(page.locator(".rf-tick", has_text="My reporter mic").locator("input")).to_be_checked()


def test_a_changed_class_is_said(visit):
    page = kept(visit)
    page.evaluate(
        "localStorage.setItem('ringfence.own', "
        'localStorage.getItem(\'ringfence.own\').replace(/"stamp":"[^"]*"/, \'"stamp":"old"\'))'
    )
    page.goto("mine/")
    expect(page.locator(".rf-mine")).to_contain_text("This class has changed since you typed your numbers.")
    expect(page.locator(".rf-mine")).to_contain_text("63 V your manual")


def test_the_same_class_at_both_ends_keeps_its_numbers_apart(visit):
    """A number typed for one end never speaks for the other."""
    page = visit(BY_OWN)
    expect(head(page)).to_contain_text("63")
    told = page.evaluate("""() => { const { own } = Ringfence, id = "mixer-line-out-xlr",
      asked = own.asked({ from: id, through: [], into: id, own: "from.main.highest-volts-at-output:63_V" });
      return [asked.question.from, asked.question.into].map((one) =>
        asked.data.ports[one].network.limits.map(({ settled }) => settled)); }""")
    assert told[0] != told[1] and set(told[0]) == {63}


def test_a_device_stands_in_the_matrix_of_the_kit_with_its_own_mark(visit):
    page = kept(visit)
    page.goto("mine/")
    page.get_by_role("button", name="Put it in my kit").click()
    page.evaluate("""() => { const bag = JSON.parse(localStorage.getItem("ringfence.bag"));
      bag.ports.push("mixer-mic-in-p48-xlr", "mic-dynamic-xlr");
      localStorage.setItem("ringfence.bag", JSON.stringify(bag)); }""")
    page.goto("matrix/")
    page.locator("summary", has_text="Filter").first.click()
    page.get_by_label("In my kit or not").or_(page.get_by_label("Bag")).first.select_option("ports")
    group = page.locator(".rf-group", has_text="My reporter mic")
    group.locator("summary").click()
    row = group.locator(".rf-row", has_text="Mixer microphone input")
    expect(row).to_contain_text("safe, by yours")
    expect(row).to_contain_text("by your number: 63\u00a0V")
    assert row.locator("[data-mark=own-safe]").count() == 1 and row.locator("use").count() == 0, (
        "not the mark of a catalogue verdict"
    )
    other = page.locator(".rf-group", has_text="Dynamic")
    other.locator("summary").first.click()
    expect(other.locator(".rf-row").first).not_to_contain_text("by yours")
    row.click()
    first = page.locator(".rf-pair .rf-row").first
    assert re.search(r"check/#from=my\.[a-z0-9]+&", first.get_attribute("href"))
    assert (
        page.locator(".rf-pair .rf-row", has_text="dangerous").locator("use[href='#mark-dangerous']").count()
        == page.locator(".rf-pair .rf-row", has_text="dangerous").count()
    )


def test_a_device_has_a_card_with_what_its_manual_says(visit):
    page = kept(visit)
    page.goto("mine/")
    page.get_by_role("button", name="Put it in my kit").click()
    page.goto("cards/")
    page.locator("[data-key=bag]").click()
    card = page.locator(".rf-card", has_text="My reporter mic").first
    expect(card).to_contain_text("My device")
    expect(card.locator("table").first).to_contain_text("your manual")
    expect(card.locator("table").first).to_contain_text("63 V")
    expect(card.locator(".rf-card__foot")).to_contain_text("How it is known: your manual")


def test_the_card_of_a_class_has_no_number_of_anybodys(visit):
    page = visit("cards/#ports=mic-electret-battery-xlr")
    card = page.locator(".rf-card").first
    expect(card).to_contain_text("Carries")
    expect(card).not_to_contain_text("your manual")


def test_which_lead_is_asked_of_a_device_by_its_numbers(visit):
    """Without a lead chosen: the ways of its class, judged by its numbers."""
    page = kept(visit)
    mine = re.search(r"from=(my\.[a-z0-9]+)", page.url)[1]
    page.goto(f"check/#from={mine}&into={CHAIN[2]}")
    ways = page.locator(".rf-ways:not([aria-busy])")
    expect(ways.locator(".rf-banner")).to_contain_text("By your numbers.")
    expect(ways.locator(".rf-banner [data-mark=own-safe]")).to_be_visible()
    best = ways.locator(".rf-way").first
    expect(best).to_contain_text("XLR microphone lead")
    expect(best).to_contain_text("safe, by yours")
    best.click()
    expect(head(page)).to_have_text("Safe, by your number: 63\u00a0V")
    assert f"from={mine}" in page.url
    page.goto(f"check/#from={CHAIN[0]}&into={CHAIN[2]}&own={ASK}:16_V")
    ways = page.locator(".rf-ways:not([aria-busy])")
    expect(ways.locator(".rf-banner")).to_contain_text("By your numbers.")
    expect(ways.locator(".rf-way", has_text="XLR microphone lead").first).to_contain_text("dangerous")
    ways.locator(".rf-way").first.click()
    expect(head(page)).to_have_text("Safe, by your number: 16\u00a0V")


FILE = (
    'name: "Desk mic"\n'
    "same_as: mic-electret-battery-xlr\n"
    "circuit:\n"
    "  main:\n"
    "    stands: {value: 63 V, evidence: your manual}\n"
)


def test_a_file_is_read_shown_and_then_kept(visit):
    page = visit("mine/")
    page.get_by_text("Bring one in: a file").click()
    field, read = page.locator(".rf-mine__in textarea"), page.locator("[data-key=read]")
    field.fill(FILE.replace("63 V", "6300 V"))
    read.click()
    expect(page.locator(".rf-mine__in .rf-own__fault")).to_contain_text(
        'No question of this class has the answer "main stands: 6300 V".'
    )
    expect(field).to_have_value(FILE.replace("63 V", "6300 V"))  # nothing is lost
    page.locator(".rf-mine__in input[type=file]").set_input_files(
        {"name": "desk-mic.yaml", "mimeType": "text/plain", "buffer": FILE.encode()}
    )
    expect(field).to_have_value(FILE)
    read.click()
    offered = page.locator(".rf-mine__offered")
    expect(offered).to_contain_text("Desk mic")
    expect(offered).to_contain_text("63 V your manual")
    expect(page.locator("[data-device]")).to_have_count(0)  # nothing is taken unasked
    page.locator("[data-key=take]").click()
    expect(page.locator("[data-device]")).to_contain_text("63 V your manual")


def test_a_new_device_needs_a_name_and_a_class_and_keeps_what_was_typed(visit):
    page = visit("mine/")
    name, start = page.locator("#rf-mine-new"), page.get_by_role("button", name="Start it")
    start.click()
    expect(page.locator(".rf-mine__new .rf-own__fault").first).to_have_text("A device needs a name.")
    name.fill("Desk mic")
    start.click()
    expect(page.locator(".rf-mine__new .rf-own__fault").first).to_have_text(
        "Say what it is: choose its class."
    )
    expect(name).to_have_value("Desk mic")
    page.get_by_label("Its class").select_option("mic-electret-battery-xlr")
    start.click()
    expect(page.locator("[data-device]")).to_contain_text("Desk mic")
