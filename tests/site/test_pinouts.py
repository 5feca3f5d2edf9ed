"""The pinout that opens the page of a connector or an assignment."""

import json
import re
from dataclasses import dataclass
from html.parser import HTMLParser

from generator.catalogue.records import Catalogue
from generator.drawing import roles
from generator.drawing.sheets import SHEETS, commonest, sheets
from generator.site.pinouts import short


@dataclass
class Tag:
    name: str
    attributes: dict
    around: tuple
    text: str = ""

    def has(self, word):
        return word in (self.attributes.get("class") or "").split()


class Reader(HTMLParser):
    """Every tag of a page with its attributes, the tags around it, and all text inside it."""

    EMPTY = {"path", "use", "circle", "rect", "line", "img", "br", "input"}

    def __init__(self, text):
        super().__init__()
        self.tags, self._open = [], []
        self.feed(text)

    def handle_starttag(self, name, attributes):
        self.tags.append(Tag(name, dict(attributes), tuple(self._open)))
        if name not in self.EMPTY:
            self._open.append(self.tags[-1])

    def handle_startendtag(self, name, attributes):
        self.tags.append(Tag(name, dict(attributes), tuple(self._open)))

    def handle_endtag(self, name):
        while self._open and self._open.pop().name != name:
            pass

    def handle_data(self, data):
        for tag in self._open:
            tag.text += data


def pinout(tree, address):
    """The pinout's own tag, and all tags inside it."""
    tags = Reader(tree[f"{address}.md"].decode().split("---\n", 2)[2]).tags
    [own] = [tag for tag in tags if tag.has("rf-pinout")]
    return own, [tag for tag in tags if own in tag.around]


def views(inside):
    return [tag for tag in inside if tag.has("rf-pinout__view")]


def test_the_page_opens_with_the_commonest_assignment_drawn_on_the_face(tree):
    own, inside = pinout(tree, "connectors/xlr-3")
    before = tree["connectors/xlr-3.md"].decode().split('<div class="rf-pinout"')[0]
    # nothing stands between the name and the pinout
    assert before.split("# XLR, three contacts")[1].strip() == ""
    assert own.attributes["data-first"] == "xlr-3-balanced"
    said = {tag.attributes["data-contact"]: tag.text for tag in inside if tag.has("rf-carry")}
    assert said == {"1": "1screen", "2": "2hot", "3": "3cold"}  # xlr-wiring-tip, and every table of the trade
    halves = [(view.attributes["data-half"], view.attributes["data-side"]) for view in views(inside)]
    assert sorted(halves) == [("female", "face"), ("female", "solder"), ("male", "face"), ("male", "solder")]
    for view in views(inside):
        assert {
            tag.attributes["data-contact"]
            for tag in inside
            if view in tag.around and tag.name == "g" and "data-contact" in tag.attributes
        } == {"1", "2", "3"}


def test_every_assignment_is_a_chip_and_the_rare_ones_are_folded(catalogue, tree):
    for connector in catalogue.connectors.values():
        mine = {one.id for one in catalogue.assignments.values() if one.connector == connector.id}
        _, inside = pinout(tree, f"connectors/{connector.id}")
        chips = [tag for tag in inside if "data-as" in tag.attributes]
        assert sorted(chip.attributes["data-as"] for chip in chips) == (
            sorted(mine) if len(mine) > 1 else []
        ), connector.id
        folded = [
            chip.attributes["data-as"] for chip in chips if any(tag.name == "details" for tag in chip.around)
        ]
        assert folded == [id for id in connector.outside.seldom if len(mine) > 1], connector.id
        # an address of its own
        assert all(
            chip.attributes["href"] == f"../../assignments/{chip.attributes['data-as']}/" for chip in chips
        )


def test_the_data_a_page_changes_words_by_is_the_catalogues(catalogue, tree):
    for connector in catalogue.connectors.values():
        given = pinout(tree, f"connectors/{connector.id}")[0].attributes.get("data-carries")
        for id, carries in (json.loads(given)["carries"] if given else {}).items():
            known = catalogue.assignments[id].carries
            assert carries == {
                contact: [roles.kind(known.get(contact)), roles.words(known.get(contact))]
                for contact in connector.contacts
            }, id


def test_an_assignment_opens_with_itself(catalogue, tree):
    for id in catalogue.assignments:
        assert pinout(tree, f"assignments/{id}")[0].attributes["data-first"] == id


def test_numbers_on_a_phone_are_large_enough(tree):
    """The page gives the picture 320 px at least on a phone, and its numerals are 24 units of 320."""
    _, inside = pinout(tree, "connectors/xlr-3")
    svg = next(tag for tag in inside if tag.name == "svg" and tag.has("rf-drawing"))
    assert svg.attributes["viewbox"].split()[2] == "320"
    sizes = [
        float(tag.attributes["font-size"])
        for tag in inside
        if tag.name == "text" and svg in tag.around and tag.text in ("1", "2", "3")
    ]
    assert len(sizes) == 3 and min(sizes) >= 24


def test_short_names_keep_what_tells_them_apart():
    assert short({"a": "Timecode on a big plug", "b": "Audio on a big plug", "c": "Audio, 2 hot"}) == {
        "a": "Timecode",
        "b": "Audio",
        "c": "Audio, 2 hot",
    }
    assert short({"a": "Audio on a plug, new", "b": "Video on a plug"}) == {"a": "Audio, new", "b": "Video"}
    assert short({"a": "Audio on a plug"}) == {"a": "Audio on a plug"}
    # two would be alike
    assert short({"a": "Audio on a plug", "b": "Audio", "c": "MIDI on a plug"})["a"] == "Audio on a plug"


def test_contact_sheets_show_every_half_and_lead_light_and_dark(catalogue):
    few = Catalogue(
        {id: catalogue.connectors[id] for id in ("xlr-3", "rca")}, catalogue.assignments, {}, {}, {}, {}
    )
    few = Catalogue(
        few.connectors,
        {id: one for id, one in few.assignments.items() if one.connector in few.connectors},
        {},
        {},
        {},
        {},
    )
    files = sheets(few)
    for sheet in SHEETS:
        light, dark = (files[f"{sheet}-{scheme}.html"] for scheme in ("light", "dark"))
        shown = re.findall(r'src="([^"]+)"', light)
        assert shown == re.findall(r'src="([^"]+)"', dark) and set(shown) <= set(files)
        assert "color-scheme: dark" in dark and "color-scheme: light" in light
    assert {"face-xlr-3-male-solder.svg", "face-rca-jack-face.svg", "side-xlr-3-female-panel.svg"} <= set(
        files
    )
    assert commonest(catalogue, catalogue.connectors["xlr-3"]) == "xlr-3-balanced"


def test_no_inner_name_of_a_lead_reaches_a_reader(catalogue, tree):
    """Nodes are `a.tip` and `foot` in the catalogue; a page says which contact of which end."""
    with_parts = [lead for lead in catalogue.leads.values() if lead.parts]
    assert with_parts
    for lead in with_parts:
        page = tree[f"leads/{lead.id}.md"].decode()
        inside = page.split("Parts inside:")[1].split("</ul>")[0] if "Parts inside:" in page else ""
        nodes = {node for part in lead.network.parts if part.id in lead.parts for node in (part.a, part.b)}
        assert inside and not [
            node for node in nodes if re.search(rf"(between|and) {re.escape(node)}\b", inside)
        ], lead.id


def test_the_sheet_shows_every_half_as_large_as_it_is(catalogue, tree):
    page = tree["plugs.md"].decode()
    shown = {
        (match[1], match[2]): float(match[3])
        for match in re.finditer(
            r'connectors/([\w-]+)/"><img [^>]*data-mm="[\d.]+" '
            r'src="[^"]*side-[\w-]+?-(male|female|plug|jack)\.svg" width="(\d+)"',
            page,
        )
    }
    assert set(shown) == {
        (connector.id, half) for connector in catalogue.connectors.values() for half in connector.outside.body
    }
    # a 6.35 mm plug is 31 mm from tip to shoulder; its picture is longer, by its handle and a little cable
    assert (
        shown["phone-635-trs", "plug"] * 25.4 / 96
        > catalogue.connectors["phone-635-trs"].halves["plug"].segments["sleeve"][1]
    )


def test_the_card_one_holds_against_the_screen_is_a_bank_card(tree):
    """ISO/IEC 7810, ID-1: 85.60 mm by 53.98 mm."""
    style = tree["assets/css/plugs.css"].decode()
    [card] = re.findall(r"\.rf-true__card\s*\{([^}]*)\}", style)
    assert re.search(r"width:\s*calc\(53\.98mm ?\* ?var\(--rf-true\)\)", card) and re.search(
        r"height:\s*calc\(85\.6mm ?\* ?var\(--rf-true\)\)", card
    )
    # paper needs no setting
    assert re.search(r"@media print\s*\{\s*\.rf-true\s*\{\s*--rf-true:\s*1\s*!important;?\s*\}", style)


def test_every_half_of_the_small_faces_has_its_key_and_its_numbers(catalogue):
    from generator.drawing import small

    drawn = 0
    for connector in catalogue.connectors.values():
        for half in connector.halves:
            scene = small.picture(connector, half)
            if scene is None:
                assert connector.shape == "concentric" or connector.looks["outline"] == "wires", connector.id
                continue
            drawn += 1
            items = scene.items[0].items
            marks = [item for item in items if getattr(item, "look", "") in ("window", "solid", "block")]
            assert bool(marks) >= (connector.key_angle is not None), (connector.id, half)
    assert drawn > 50
