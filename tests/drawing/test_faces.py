from itertools import combinations, product
from math import hypot

import pytest

from generator.catalogue.records import Catalogue
from generator.drawing import draw, faces, looks, roles, views
from generator.drawing.contacts import RING
from generator.drawing.round import lay

from . import seen
from .conftest import ROUND, circular

CONTACTS = ("1", "2", "3")
EDGE = float(looks.LOOKS["role-edge"]["stroke-width"])


def centres(source, roles=None):
    return {
        c: seen.circles(source, f"contact {c} ({roles[c]})" if roles else f"contact {c}")[0][:2]
        for c in CONTACTS
    }


def test_xlr_contacts_stand_where_the_published_footprints_have_them(catalogue):
    # cad-footprints-xlr: male mating face 1 left, 2 right, 3 bottom; the female is its mirror
    male = centres(draw(catalogue, "xlr-3", "face", "male"))
    assert male["1"][0] < male["3"][0] < male["2"][0] and male["3"][1] > male["1"][1] == male["2"][1]
    female = centres(draw(catalogue, "xlr-3", "face", "female"))
    assert female["2"][0] < female["3"][0] < female["1"][0] and female["3"][1] > female["1"][1]


@pytest.mark.parametrize("view", faces.VIEWS)
def test_the_other_half_is_the_mirror(view):
    male, female = faces.places(ROUND, "male", view), faces.places(ROUND, "female", view)
    for contact, (x, y) in male.items():
        assert female[contact] == pytest.approx((-x, y))


def test_male_face_is_female_solder_side_and_the_other_way_round():
    assert faces.places(ROUND, "male", "face") == faces.places(ROUND, "female", "solder")
    assert faces.places(ROUND, "female", "face") == faces.places(ROUND, "male", "solder")
    assert faces.places(ROUND, "male", "face") != faces.places(ROUND, "male", "solder")


def from_first(source, contacts):
    """Each contact's place as seen from the first one, in shares of the farthest."""
    spots = [seen.circles(source, f"contact {contact}")[0][:2] for contact in contacts]
    seen_from = [(x - spots[0][0], y - spots[0][1]) for x, y in spots]
    far = max(hypot(x, y) for x, y in seen_from)
    return [(x / far, y / far) for x, y in seen_from]


def test_every_connector_with_a_face_keeps_the_mirror_rule_as_drawn(catalogue):
    """Left and right change places; above and below do on a face that is shown turned a quarter."""
    for connector in (
        c
        for c in catalogue.connectors.values()
        if "solder" in views(c) and c.shape != "coaxial" and len(c.halves) == 2 and len(c.contacts) > 1
    ):
        face, solder, mirror = (
            from_first(draw(catalogue, connector.id, view, half), connector.contacts)
            for view, half in (("face", "male"), ("solder", "female"), ("face", "female"))
        )
        quarter = connector.shape == "rectangular" and len(connector.contacts) > 2
        for (x, y), other, mirrored in zip(face, solder, mirror):
            assert other == pytest.approx((x, y), abs=0.02), connector.id
            assert mirrored == pytest.approx((x, -y) if quarter else (-x, y), abs=0.02), connector.id


def test_pins_are_filled_sockets_open_and_cups_half_filled(small):
    assert seen.classes(draw(small, "round", "face", "male"))["rf-pin"] == 3
    assert seen.classes(draw(small, "round", "face", "female"))["rf-socket"] == 3
    assert seen.classes(draw(small, "round", "solder", "male"))["rf-cup"] == 3


def test_the_title_says_side_and_half(small):
    assert (
        seen.titles(draw(small, "round", "solder", "female"))[0]
        == "Circular round: Female half, seen from the solder side"
    )
    assert seen.titles(draw(small, "round", "face", "male"))[0] == "Circular round: Male half, mating face"


def test_an_assignment_names_what_each_contact_carries(small):
    drawn = draw(small, "round-audio")
    assert seen.titles(drawn)[0] == "Audio on round: Circular round: male half, mating face"
    assert {"screen", "hot", "cold"} <= {words.words for words in seen.all_words(drawn)}
    assert seen.described(drawn).endswith("Contacts from left to right: 1 (screen), 3 (cold) and 2 (hot).")


def test_a_word_stands_at_its_contact_and_in_its_pattern(catalogue):
    drawn = draw(catalogue, "xlr-3-balanced")
    for contact, word, look in (
        ("1", "screen", "rf-role-ground"),
        ("2", "hot", "rf-role-hot"),
        ("3", "cold", "rf-role-cold"),
    ):
        title = f"contact {contact} ({word})"
        x, y, _ = seen.circles(drawn, title)[0]
        [said] = [words for words in seen.all_words(drawn) if words.words == word]
        assert said.left < x < said.right and abs((said.top + said.bottom) / 2 - y) < 90
        assert look in [
            element.get("class") for element, _, titles in seen.walk(seen.root(drawn)) if title in titles
        ]


def test_what_is_carried_is_told_by_pattern_not_by_colour_alone():
    patterns = [looks.LOOKS[f"role-{kind}"].get("stroke-dasharray") for kind in looks.ROLES]
    assert len(set(patterns)) == len(patterns) and set(roles.NAMES) == {*looks.ROLES, "nothing"}


@pytest.mark.parametrize(
    ("role", "kind"),
    [
        ("hot", "hot"),
        ("signal", "hot"),
        ("left", "hot"),
        ("cold", "cold"),
        ("left-cold", "cold"),
        ("screen", "ground"),
        ("mic-common", "ground"),
        ("right", "second"),
        ("right-cold", "cold"),
        ("mic", "other"),
        ("supply", "supply"),
        ("bias", "supply"),
        ("timecode-in", "data"),
        ("unknown-3", "unknown"),
        ("either-2", "unknown"),
        (None, "nothing"),
        ("in-1-2-screen", "ground"),
        ("data-minus", "cold"),
    ],
)
def test_the_kind_of_a_role(role, kind):
    assert roles.kind(role) == kind


def test_every_unknown_of_the_catalogue_is_shown_as_unknown(catalogue):
    told = {role: roles.kind(role) for one in catalogue.assignments.values() for role in one.carries.values()}
    assert {role for role, kind in told.items() if kind == "unknown"} == {
        role for role in told if role.startswith(("unknown", "either"))
    }


def numerals(source, contacts):
    return [words for words in seen.all_words(source) if words.words in contacts]


def test_numbers_are_read_at_arms_length(catalogue):
    """24 px and more wherever the names are numbers, on every face and in every assignment."""
    for id, record in {**catalogue.connectors, **catalogue.assignments}.items():
        connector = catalogue.connectors[getattr(record, "connector", id)]
        if connector.shape == "concentric" or not all(contact.isdecimal() for contact in connector.contacts):
            continue
        for view in views(connector)[:-1]:
            for half in connector.halves:
                found = numerals(draw(catalogue, id, view, half), connector.contacts)
                assert {words.words for words in found} == set(connector.contacts)
                assert min(words.size for words in found) >= 24, f"{id} {view} {half}"


@pytest.mark.parametrize(
    ("connector", "half", "title"),
    [
        ("xlr-3", "male", "key: ridge"),
        ("xlr-3", "female", "key: slot"),
        ("din-5-180", "male", "key: notch"),
        ("rj45", "male", "key: the tab to press"),
        ("xlr-4", "female", "latch: the tab to press"),
        ("mini-xlr-4", "male", "latch: the opening it drops into"),
        ("bnc", "jack", "studs of the bayonet"),
        ("bnc", "plug", "slots of the bayonet"),
        ("combo-xlr-3", "female", "opening for a 6.35 mm plug"),
    ],
)
def test_a_face_shows_what_one_knows_it_by(catalogue, connector, half, title):
    assert title in seen.titles(draw(catalogue, connector, "face", half))


def test_a_ridge_stands_in_and_a_slot_is_cut_out(catalogue):
    looks_of = {
        half: [
            element.get("class")
            for element, _, titles in seen.walk(seen.root(draw(catalogue, "xlr-3", "face", half)))
            if f"key: {kind}" in titles
        ]
        for half, kind in (("male", "ridge"), ("female", "slot"))
    }
    assert (
        "rf-solid" in looks_of["male"]
        and "rf-cutout" in looks_of["female"]
        and "rf-solid" not in looks_of["female"]
    )


@pytest.mark.parametrize(
    ("connector", "said"),
    [
        ("xlr-3", "Male, looking at the pins. Latch above."),
        ("din-5-180", "Male, looking at the pins. Notch below."),
        ("d-sub-25", "Male, looking at the pins. Turned a quarter: the longer row is at the right."),
        ("loudspeaker-4", "Male, looking at the contacts. Key above."),
    ],
)
def test_a_picture_says_how_it_is_held(catalogue, connector, said):
    assert said in " ".join(
        words.words for words in seen.all_words(draw(catalogue, connector, "face", "male"))
    )


def test_every_face_of_every_family_shows_its_key_and_says_how_it_is_held(catalogue):
    """What the catalogue says about the shape, against the file alone. A D needs no
    key beside its outline."""
    keyed = held = 0
    for connector in catalogue.connectors.values():
        for half in connector.halves if connector.shape != "concentric" else ():
            source = draw(catalogue, connector.id, "face", half)
            if connector.looks["keyway"] not in ("none", "outline"):
                keyed += 1
                assert any(title.startswith("key: ") for title in seen.titles(source)), (connector.id, half)
            if connector.outside.held != "any way":
                held += 1
                said = (
                    " ".join(words.words for words in seen.all_words(source)).replace("\u00a0", " ").lower()
                )
                assert any(word in said for word in ("above", "below", "at the right", "at the left")), (
                    connector.id,
                    half,
                    said,
                )
    assert keyed >= 30 and held >= 35


def test_pins_of_a_crowded_insert_keep_apart():
    crowded = circular("crowded", {str(n): 60 * n for n in range(1, 7)})
    small = Catalogue({"crowded": crowded}, {}, {}, {}, {}, {})
    drawn = [seen.circles(draw(small, "crowded", "face", "male"), f"contact {n}")[0] for n in range(1, 7)]
    for (x, y, r), (u, v, s) in combinations(drawn, 2):
        assert hypot(x - u, y - v) > r + s + 3


def test_a_d_sub_is_turned_a_quarter_with_its_long_row_at_the_right(catalogue):
    drawn = draw(catalogue, "d-sub-25", "face", "male")
    upper, lower = (
        [seen.circles(drawn, f"contact {n}")[0][:2] for n in numbers]
        for numbers in (range(1, 14), range(14, 26))
    )
    down = [y for _, y in upper], [y for _, y in lower]
    assert all(row == sorted(row) for row in down)  # from memory: male face, contact 1 at the upper left
    assert min(x for x, _ in upper) > max(x for x, _ in lower)
    numbers = {words.words: words for words in numerals(drawn, [str(n) for n in range(1, 26)])}
    for number, (x, y) in zip(range(1, 14), upper):
        assert numbers[str(number)].top < y < numbers[str(number)].bottom and numbers[str(number)].left > x


def test_a_rectangular_face_lists_what_its_contacts_carry(catalogue):
    drawn = draw(catalogue, "d-sub-25-aes59-analogue", "face", "female")
    said = {words.words for words in seen.all_words(drawn)}
    assert {"hot 1", "cold 8", "screen 4"} <= {" ".join(words.split(" ")[-2:]) for words in said}
    assert "contact 24 (hot 1)" in seen.titles(drawn)
    assert seen.described(drawn).count(";") == 1  # two rows


def test_a_socket_without_a_plug_of_its_own_is_drawn(catalogue):
    drawn = draw(catalogue, "combo-635-trs")
    assert seen.titles(drawn)[0] == "Combination socket, 6.35 mm phone part: Jack, cut open"
    with pytest.raises(ValueError, match=r"'combo-635-trs' .* has no half 'plug'; it has jack"):
        draw(catalogue, "combo-635-trs", "plug", "plug")


def test_the_rings_of_two_contacts_do_not_touch(catalogue):
    """A ring's pattern says what the contact carries; where two run into each other neither can be read."""
    for connector in (one for one in catalogue.connectors.values() if one.shape == "circular"):
        for half, view in product(connector.halves, ("face", "solder")):
            laid = lay(connector, half, view)
            apart = min(hypot(x - u, y - v) for (x, y), (u, v) in combinations(laid.spots.values(), 2))
            assert apart - 2 * (laid.disc + RING + EDGE / 2) >= 2, f"{connector.id} {half} {view}"
