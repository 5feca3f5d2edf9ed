import pytest

from generator.catalogue.records import Catalogue
from generator.drawing import draw, draw_chain, leads, svg

from . import seen
from .conftest import THREE, lead


def words(source):
    return [found.words for found in seen.all_words(source)]


def test_a_cable_has_its_screen_around_the_cores(catalogue):
    counts = seen.classes(draw(catalogue, "xlr-f-to-xlr-m-3m"))
    assert counts["rf-envelope"] == 1 and "rf-core-1" in counts and "rf-core-2" in counts


def test_cores_differ_in_pattern_not_only_in_colour(catalogue):
    looks = {}
    for element in seen.root(draw(catalogue, "phone-35-trrs-to-35-trrs")).iter():
        if (element.get("class") or "").startswith("rf-core"):
            looks[element.get("class")] = (element.get("stroke-dasharray"), element.get("stroke"))
    assert len(looks) >= 4 and len({dash for dash, _ in looks.values()}) == len(looks)
    assert {stroke for _, stroke in looks.values()} == {"currentColor"}


def test_every_join_bears_its_name(catalogue):
    assert {"hot", "cold", "screen"} <= set(words(draw(catalogue, "xlr-f-to-xlr-m-3m")))


def test_what_is_linked_in_one_plug_is_dotted_at_each_contact(catalogue):
    # contact 3 joined to 1 in the XLR: two dots on the link, and no contact of that end open
    drawn = draw(catalogue, "xlr-f-to-635-ts-3-to-1")
    dots = [
        element
        for element in seen.root(drawn).iter(f"{seen.SVG}circle")
        if element.get("class") == "rf-solid" and element.get("r") == "3"
    ]
    assert len(dots) == 2
    assert "×: not connected." not in words(drawn) and "open" not in seen.titles(drawn)


def test_open_contacts_are_crossed_and_told(catalogue):
    drawn = draw(catalogue, "xlr-f-to-635-ts-3-open")
    assert seen.titles(drawn).count("open") == 1
    assert "×: not connected." in words(drawn)
    assert seen.described(drawn).endswith("Not connected: XLR female to the source 3.")


def test_parts_are_lettered_on_the_wire_and_listed_with_their_values(catalogue):
    found = words(draw(catalogue, "xlr-f-to-xlr-m-pad-20-db"))
    assert {"R1", "R2", "R3"} <= set(found)
    assert "R1: resistor 680\xa0Ω (leg hot)" in found and "R3: resistor 150\xa0Ω (across)" in found


def test_a_transformer_tells_its_ratio(catalogue):
    # turns are as the root of inductances: 1440 H to 10 H is 12 to 1
    assert any(
        line.startswith("T1: transformer 12 to 1")
        for line in words(draw(catalogue, "phone-635-ts-jack-to-xlr-m-di"))
    )


@pytest.mark.parametrize(
    ("id", "above"),
    [("xlr-f-to-two-xlr-m", ("a",)), ("two-xlr-f-to-xlr-m", ("one", "two")), ("xlr-f-to-xlr-m-3m", ("a",))],
)
def test_two_into_one_has_two_above(catalogue, id, above):
    assert leads.top_ends(catalogue, catalogue.leads[id]) == above


def test_a_screen_is_joined_to_the_contact_it_comes_from(catalogue):
    """A dot where each end's wire meets the screen: it does not pass through."""

    def dots(lead):
        return [
            e
            for e in seen.root(draw(catalogue, lead)).iter(f"{seen.SVG}circle")
            if e.get("class") == "rf-solid" and e.get("r") == "4"
        ]

    assert len(dots("xlr-f-to-xlr-m-3m")) == 2


def test_both_ends_show_the_face_and_the_side_of_what_one_has_in_the_hand(catalogue):
    drawn = draw(catalogue, "xlr-f-to-xlr-m-3m")
    assert {"female from the side", "male from the side"} <= set(seen.titles(drawn))
    # on each face and at each row
    assert words(drawn).count("1") == words(drawn).count("2") == words(drawn).count("3") == 4


def test_of_many_channels_one_is_drawn_and_the_picture_says_so(catalogue):
    which = catalogue.leads["d-sub-25-to-d-sub-25-straight"]
    drawn = draw(catalogue, which.id)
    assert "Channel 1 of 8 is drawn. The table of" in " ".join(words(drawn))
    joined = {node.split(".")[1] for join in which.joins if join.id.endswith("-1") for node in join.nodes}
    assert joined <= set(words(drawn)) and "24" in joined  # AES59: channel 1 hot on 24
    assert all(f"{join.id}:" in seen.described(drawn) for join in which.joins)  # told in words, all of them
    assert "open" not in seen.titles(drawn)  # what belongs to the other channels is not said to be open
    assert leads.channels(catalogue.leads["xlr-7-f-to-xlr-7-m"]) == {}


def test_of_a_large_connector_only_contacts_in_use_are_drawn_and_the_picture_says_so(catalogue):
    """A row of 25 contacts is as wide as a phone; crosses under 19 of them are no picture."""
    drawn = draw(catalogue, "d-sub-25-to-two-xlr-m")
    joined = {
        node.split(".")[1]
        for join in catalogue.leads["d-sub-25-to-two-xlr-m"].joins
        for node in join.nodes
        if node.startswith("a.")
    }
    # AES59: channels 1 and 2
    assert (
        joined == {"10", "11", "12", "23", "24", "25"}
        and joined <= set(words(drawn))
        and "9" not in words(drawn)
    )
    assert "only contacts in use are drawn; the others are not connected." in " ".join(words(drawn))
    assert "open" not in seen.titles(drawn)
    assert "Not connected: " in seen.described(drawn)


def test_every_part_of_every_lead_is_drawn_and_every_contact_named(catalogue):
    for which in catalogue.leads.values():
        drawn = draw(catalogue, which.id)
        told = " ".join(seen.titles(drawn))
        kinds = {part.id: part.kind for part in which.network.parts}
        coupled = {name for coupling in which.network.couplings for name in (coupling.first, coupling.second)}
        for part in which.parts:
            assert kinds[part] == "wire" or part in coupled or f" {part}" in told, (
                f"{which.id}: {part} is missing"
            )
        assert told.count("transformer") >= bool(coupled)
        found = words(drawn)
        if leads.channels(which):
            continue  # one channel stands for them all
        whole = {end.id: catalogue.connectors[end.connector].contacts for end in which.ends.values()}
        contacts = [c for contacts in whole.values() if len(contacts) <= leads.MOST for c in contacts]
        for contact in set(contacts):
            assert found.count(contact) >= contacts.count(contact), f"{which.id}: {contact}"


def test_a_wire_stops_short_of_a_long_name_beside_it():
    ends = {"a": ("three", "plug"), "b": ("three", "plug")}
    which = lead(
        {
            "a-very-long-name-indeed": ["a.ring", "b.ring"],
            "x": ["a.tip", "b.tip"],
            "y": ["a.sleeve", "b.sleeve"],
        },
        ends=ends,
    )
    drawn = svg.write(leads.lead(Catalogue({"three": THREE}, {}, {}, {}, {}, {}), which), "p")
    name = next(found for found in seen.all_words(drawn) if found.words == "a very long name indeed")
    for element, matrix, _ in seen.walk(seen.root(drawn)):
        if (
            (element.get("class") or "").startswith("rf-core")
            and element.get("d").count("L") == 1
            and "C" not in element.get("d")
        ):
            _, x, y0, _, x1, y1 = element.get("d").split()
            (x, top), (_, bottom) = (seen.place(matrix, float(a), float(b)) for a, b in ((x, y0), (x1, y1)))
            assert not (name.left < x < name.right and top < name.bottom and name.top < bottom)


def test_a_plug_for_light_has_no_metal_and_ends_in_a_point_of_light(catalogue):
    """As its connector's own picture tells: nothing on it touches a spring. common practice"""
    of_lead = draw(catalogue, "optical-square-to-optical-round-1m")
    of_plug = draw(catalogue, "optical-round-35", view="plug")
    strip = lambda source: [
        element.get("class")
        for element, _, titles in seen.walk(seen.root(source))
        if any(title.startswith("round optical plug") for title in titles)
        and not any("from the side" in title for title in titles)
    ]
    assert "end of the fibre" in seen.titles(of_lead) and "end of the fibre" in seen.titles(of_plug)
    looks = strip(of_lead)
    assert "rf-hair" in looks and "rf-insulator" in looks and not {"rf-metal", "rf-shade"} & set(looks)
    # one that carries current is metal from its tip on
    assert "rf-metal" in seen.classes(draw(catalogue, "phone-35-trs-to-35-trs"))


def test_a_jack_for_light_has_its_lamp_or_eye_at_the_bottom(catalogue):
    ports = [catalogue.ports[name] for name in ("optical-out-square", "optical-in-round-35")]
    lead = catalogue.leads["optical-square-to-optical-round-1m"]
    drawn = draw_chain(catalogue, ports[0], [(lead, "a", "b")], ports[1])
    assert "lamp or eye" in seen.titles(drawn)
