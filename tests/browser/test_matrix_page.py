"""The matrix shows the published table: filters, headings that stay, cells that open; a list
where there is no room."""

from collections import defaultdict

import pytest
from answers import shown
from conftest import DESK, PHONE
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

ORDER = ("safe", "lossy", "no signal", "dangerous")


@pytest.fixture(scope="module")
def pairs(table):
    """(outlet, inlet) -> its verdicts, best first."""
    return ordered(table, lambda row: ORDER.index(row["verdict"]))


def ordered(table, worth):
    """(outlet, inlet) -> its verdicts, the least `worth` first."""
    found = defaultdict(list)
    for row in table:
        found[row["from"], row["into"]].append((worth(row), row["verdict"]))
    return {pair: [verdict for _, verdict in sorted(verdicts)] for pair, verdicts in found.items()}


def cells(page) -> dict[tuple[str, str], tuple[str, bool]]:
    """(outlet, inlet) by name -> (mark, whether its corner warns), once the table is there."""
    page.locator(".rf-grid").wait_for()
    return {
        tuple(pair): (mark, flag == "true")
        for pair, mark, flag in page.evaluate("""() => {
        const heads = [...document.querySelectorAll(".rf-grid thead th")].map((one) => one.textContent);
        return [...document.querySelectorAll(".rf-grid tbody tr")].flatMap((row) => [...row.querySelectorAll("td")].flatMap((cell, i) => {
            const button = cell.querySelector("button");
            return button ? [[[row.querySelector("th").textContent, heads[i]], button.querySelector("use").getAttribute("href"), button.dataset.flag]] : [];
        }));
    }""")
    }


def wanted(catalogue, pairs, passes=lambda outlet, inlet, verdicts: True):
    ports = catalogue.ports
    return {
        (ports[outlet].name, ports[inlet].name): (
            f"#mark-{verdicts[0].replace(' ', '-')}",
            verdicts[0] != "dangerous" and "dangerous" in verdicts,
        )
        for (outlet, inlet), verdicts in pairs.items()
        if passes(ports[outlet], ports[inlet], verdicts)
    }


def test_every_cell_is_the_best_way_and_warns_of_a_dangerous_one(visit, catalogue, pairs):
    assert cells(visit("matrix/", size=DESK)) == wanted(catalogue, pairs)


def test_filters_leave_what_passes(visit, catalogue, pairs):
    page = visit("matrix/", size=DESK)
    page.get_by_label("From: device").select_option("microphone")
    assert cells(page) == wanted(catalogue, pairs, lambda outlet, inlet, _: outlet.device == "microphone")
    page.get_by_label("Into: connector").select_option("xlr-3")
    page.get_by_label("Best verdict").select_option("safe")
    expected = wanted(
        catalogue,
        pairs,
        lambda outlet, inlet, verdicts: (
            outlet.device == "microphone" and inlet.connector == "xlr-3" and verdicts[0] == "safe"
        ),
    )
    assert expected and cells(page) == expected
    outlets, inlets = ({pair[side] for pair in expected} for side in (0, 1))

    def count(number, word):
        return f"{number} {word}{'' if number == 1 else 's'}"

    expect(page.locator("#rf-status")).to_have_text(
        f"Showing {count(len(outlets), 'outlet')}, {count(len(inlets), 'inlet')}"
    )
    page.get_by_label("From: name").fill("no such thing")
    expect(page.get_by_text("Nothing passes these filters.")).to_be_visible()


def test_headings_stay_in_sight(visit):
    page = visit("matrix/", size=DESK)
    grid = page.locator(".rf-grid")
    grid.evaluate("grid => grid.scrollTo(600, 600)")
    frame = grid.bounding_box()
    head, side = (
        page.locator(".rf-grid thead th").first.bounding_box(),
        page.locator(".rf-grid tbody th").first.bounding_box(),
    )
    assert abs(head["y"] - frame["y"]) <= 2 and abs(side["x"] - frame["x"]) <= 2
    assert grid.evaluate("grid => grid.scrollLeft") > 0 and grid.evaluate("grid => grid.scrollTop") > 0
    corner = page.locator(".rf-grid__corner").bounding_box()
    assert abs(corner["x"] - frame["x"]) <= 2 and abs(corner["y"] - frame["y"]) <= 2


def test_a_cell_lists_every_way_and_each_opens_the_check(visit, catalogue, table):
    """What an order of plugging makes safe stands half a step below safe."""
    pairs = ordered(
        table,
        lambda row: ORDER.index(row["offered"]) + 0.5 if row["offered"] else ORDER.index(row["verdict"]),
    )
    page = visit("matrix/", size=DESK)
    outlet, inlet = next(pair for pair, verdicts in pairs.items() if len(set(verdicts)) > 2)
    names = catalogue.ports[outlet].name, catalogue.ports[inlet].name
    page.get_by_role("button", name=f"{names[0]} into {names[1]}: ").click()
    ways = page.get_by_role("dialog").locator(".rf-row")
    assert ways.locator(".rf-verdict").all_inner_texts() == pairs[outlet, inlet]
    ways.last.click()
    assert shown(page).verdict == pairs[outlet, inlet][-1]
    assert f"#from={outlet}&" in page.url and page.url.endswith(f"&into={inlet}")


def test_a_phone_gets_a_list(visit, catalogue, pairs):
    page = visit("matrix/", size=PHONE)
    expect(page.locator(".rf-group")).to_have_count(len({outlet for outlet, _ in pairs}))
    assert page.locator("table").count() == 0
    outlet = catalogue.ports["mic-dynamic-xlr"]
    group = page.locator(".rf-group", has=page.get_by_text(outlet.name, exact=True))
    group.locator("summary").tap()
    mine = {inlet: verdicts for (start, inlet), verdicts in pairs.items() if start == outlet.id}
    rows = group.locator(".rf-row")
    expect(rows).to_have_count(len(mine))
    assert {
        row.locator(".rf-row__name").inner_text(): row.locator(".rf-verdict").inner_text()
        for row in rows.all()
    } == {catalogue.ports[inlet].name: verdicts[0] for inlet, verdicts in mine.items()}
    warned = [row for row in rows.all() if "another is dangerous" in row.inner_text()]
    assert len(warned) == sum(
        verdicts[0] != "dangerous" and "dangerous" in verdicts for verdicts in mine.values()
    )


def test_nothing_jumps_while_the_list_is_laid_out(visit, pairs):
    """A shift of 0.1 is what the open Web Vitals call good; what stands below the list must not be seen
    and then pushed away."""
    page = visit("matrix/", size=PHONE)
    page.evaluate("""window.shifts = 0; new PerformanceObserver((list) => { for (const one of list.getEntries()) shifts += one.value; })
        .observe({type: "layout-shift", buffered: true})""")
    expect(page.locator(".rf-group")).to_have_count(len({outlet for outlet, _ in pairs}))
    assert page.evaluate("new Promise((done) => setTimeout(() => done(shifts), 300))") < 0.1


def test_a_turned_phone_gets_what_there_is_room_for(visit):
    page = visit("matrix/", size=PHONE)
    page.set_viewport_size({"width": 844, "height": 390})
    expect(page.locator(".rf-grid")).to_be_visible()
    page.set_viewport_size(PHONE)
    expect(page.locator(".rf-outlets")).to_be_visible()


def test_by_keyboard_alone(visit, pairs):
    """A filter by arrow keys, a cell by Enter, out again by Escape, and back where one was."""
    page = visit("matrix/", size=DESK)
    page.get_by_label("Best verdict").focus()
    page.keyboard.press("ArrowDown")
    expect(page.get_by_label("Best verdict")).to_have_value("safe")
    cell = page.locator(".rf-grid__cell").first
    cell.focus()
    page.keyboard.press("Enter")
    dialog = page.get_by_role("dialog", name="Ways between these two")
    expect(dialog).to_be_visible()
    assert page.evaluate("document.activeElement.closest('dialog') !== null")
    page.keyboard.press("Escape")
    expect(dialog).to_have_count(0)
    expect(cell).to_be_focused()


def test_kinds_and_the_bag_filter(visit, catalogue, table):
    """By kind of signal on either side; by the leads somebody carries, where the best way may be
    another than with all leads."""
    page = visit("matrix/", size=DESK)
    assert page.get_by_label("Bag", exact=True).count() == 0, "nothing is in the bag"
    leads, ports = ["xlr-f-to-xlr-m-crossed-3m"], ["mic-dynamic-xlr", "mixer-mic-in-p48-xlr"]
    page.evaluate(
        "bag => localStorage.setItem('ringfence.bag', JSON.stringify(bag))",
        {"leads": leads, "ports": ports, "jobs": []},
    )
    page.reload()
    carried = defaultdict(list)
    for row in table:
        if set(row["through"]) <= set(leads):
            carried[row["from"], row["into"]].append(row["verdict"])
    carried = {pair: sorted(verdicts, key=ORDER.index) for pair, verdicts in carried.items()}
    page.get_by_label("Bag", exact=True).select_option("leads")
    assert cells(page) == wanted(catalogue, carried)
    page.get_by_label("From: kind of signal").select_option("microphone")
    assert cells(page) == wanted(
        catalogue, carried, lambda outlet, *_: any(source.kind == "microphone" for source in outlet.sources)
    )
    page.get_by_label("From: kind of signal").select_option("")
    page.get_by_label("Bag", exact=True).select_option("both")
    assert cells(page) == wanted(
        catalogue, carried, lambda outlet, inlet, _: {outlet.id, inlet.id} <= set(ports)
    )


SPOTS = """() => Object.fromEntries([...document.querySelectorAll(".rf-whole__picture .rf-whole__mark")].map((path) =>
    [path.getAttribute("class").split("--")[1], (path.getAttribute("d").match(/M/g) || []).length]))"""


def test_the_whole_picture_is_on_one_screen(visit, pairs, size):
    page = visit("matrix/", size=size)
    page.get_by_role("switch", name="The whole picture on one screen").click()
    spots = page.evaluate(SPOTS)
    assert spots == {
        verdict.replace(" ", "-"): sum(best[0] == verdict for best in pairs.values()) for verdict in ORDER
    }
    picture = page.locator(".rf-whole__picture")
    expect(picture).to_be_in_viewport(ratio=0.999)
    assert page.evaluate("document.documentElement.scrollWidth") == size["width"]


def test_a_spot_is_picked_by_finger_and_says_which_it_is(visit, catalogue, pairs):
    page = visit("matrix/", size=PHONE)
    page.get_by_role("switch").tap()
    box = page.locator(".rf-whole__picture").bounding_box()
    page.touchscreen.tap(box["x"] + box["width"] * 0.42, box["y"] + box["height"] * 0.31)
    spot = page.locator(".rf-whole__open")
    outlet, inlet = spot.locator(".rf-row__name").inner_text().split(" into ", 1)
    best = next(
        verdicts[0]
        for (start, end), verdicts in pairs.items()
        if (catalogue.ports[start].name, catalogue.ports[end].name) == (outlet, inlet)
    )
    assert spot.locator(".rf-verdict").inner_text() == best
    expect(page.locator("#rf-status")).to_contain_text(f"{outlet} into {inlet}: {best}")
    spot.tap()
    expect(page.get_by_role("dialog").get_by_role("heading")).to_have_text(f"{outlet} into {inlet}")


def test_a_mouse_hits_the_spot_it_points_at(visit, catalogue):
    """Where the picture is narrower than its frame as well."""
    page = visit("matrix/", size=DESK)
    page.get_by_role("switch").click()
    at = page.evaluate("""() => { const path = document.querySelector(".rf-whole__picture .rf-whole__mark--safe"), [x, y] = path.getAttribute("d").match(/-?[\\d.]+/g).map(Number);
        const point = new DOMPoint(x + 3, y).matrixTransform(path.ownerSVGElement.getScreenCTM()); return [point.x, point.y]; }""")
    page.mouse.move(*at)
    expect(page.locator(".rf-whole__open .rf-verdict")).to_have_text("safe")
    name = page.locator(".rf-whole__open .rf-row__name").inner_text()
    page.mouse.click(*at)
    expect(page.get_by_role("dialog").get_by_role("heading")).to_have_text(name)


def test_the_whole_picture_by_keys(visit):
    page = visit("matrix/", size=DESK)
    page.get_by_role("switch").focus()
    page.keyboard.press("Space")
    page.locator(".rf-whole__place").focus()
    page.keyboard.press("ArrowRight")
    first = page.locator(".rf-whole__open .rf-row__name").inner_text()
    page.keyboard.press("ArrowDown")
    expect(page.locator(".rf-whole__open .rf-row__name")).not_to_have_text(first)
    page.keyboard.press("Enter")
    expect(page.get_by_role("dialog", name="Ways between these two")).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.locator(".rf-whole__place")).to_be_focused()
