"""Every picture of every real record: well formed, repeatable, readable on the narrowest phone."""

from itertools import combinations

import pytest

from generator import drawing
from generator.drawing import draw, draw_chain, draw_mated
from generator.engine.mate import fits

from . import seen

# px for a drawing in a strip on a phone of 390; tests/browser/test_drawings.py measures it on the pages
PHONE_ROOM = 326


def pictures(catalogue):
    for id, record in {**catalogue.connectors, **catalogue.assignments}.items():
        connector = catalogue.connectors[getattr(record, "connector", id)]
        for view in drawing.views(connector)[:-1]:
            for half in connector.halves:
                yield f"{id} {view} {half}", draw(catalogue, id, view, half)
        if id in catalogue.connectors:
            for half, mounts in connector.outside.body.items():
                for mount in mounts:
                    yield f"{id} {half} {mount}", draw(catalogue, id, drawing.SIDE, half, mount=mount)
    for id in (*catalogue.ports, *catalogue.leads):
        yield id, draw(catalogue, id)
    phones = [c.id for c in catalogue.connectors.values() if c.shape == "concentric"]
    for plug in phones:
        for jack in phones:
            if (
                fits((catalogue.connectors[plug], "plug"), (catalogue.connectors[jack], "jack"))
                and "plug" in catalogue.connectors[plug].halves
                and "jack" in catalogue.connectors[jack].halves
            ):
                yield f"{plug} in {jack}", draw_mated(catalogue, plug, jack)


def connections(catalogue):
    """Each lead, each way round, between two ports that change from lead to lead."""
    ports = list(catalogue.ports.values())
    for number, lead in enumerate(catalogue.leads.values()):
        for one, two in combinations(lead.ends, 2):
            for end_in, end_out in ((one, two), (two, one)):
                start, end = ports[number % len(ports)], ports[(7 * number + 3) % len(ports)]
                yield (
                    f"{start.id} {lead.id} {end_in} {end_out} {end.id}",
                    draw_chain(catalogue, start, [(lead, end_in, end_out)], end),
                )


@pytest.fixture(scope="module")
def drawn(catalogue):
    return [*pictures(catalogue), *connections(catalogue)]


def test_there_is_something_to_look_at(catalogue, drawn):
    assert len(drawn) > 2 * len(catalogue.leads) + len(catalogue.ports)


def test_two_builds_are_equal(catalogue, drawn):
    assert [source for _, source in pictures(catalogue)] == [
        source for _, source in drawn[: len(list(pictures(catalogue)))]
    ]


def test_no_picture_is_wider_than_a_narrow_phone(drawn):
    for name, source in drawn:
        root = seen.root(source)
        assert float(root.get("width")) <= 320, name
        assert root.get("viewBox") == f"0 0 {root.get('width')} {root.get('height')}", name


def test_no_text_is_small_cut_off_or_covered_by_another(drawn):
    for name, source in drawn:
        root, found = seen.root(source), seen.all_words(source)
        wide, high = float(root.get("width")), float(root.get("height"))
        for words in found:
            assert words.size * PHONE_ROOM / wide >= 12, f"{name}: {words}"
            assert 0 <= words.left and words.right <= wide and 0 <= words.top and words.bottom <= high, (
                f"{name}: {words} is cut off"
            )
        for one, two in combinations(found, 2):
            assert not one.overlaps(two), f"{name}: {one} covers {two}"


def test_no_number_touches_the_key(catalogue, drawn):
    keyed = 0
    for name, source in drawn:
        keys = {title for title in seen.titles(source) if title.startswith(("key:", "latch:"))}
        for left, top, right, bottom in (
            box for title in sorted(keys) for box in seen.outlines(source, title=title)
        ):
            keyed += 1
            for words in seen.all_words(source):
                assert words.right < left or words.left > right or words.bottom < top or words.top > bottom, (
                    f"{name}: {words} touches the key or the latch"
                )
    assert keyed > 100


def test_a_name_lies_inside_the_screen_around_it_or_outside(drawn):
    """Half in, half out would leave open whether a conductor is screened."""
    around = 0
    for name, source in drawn:
        for left, top, right, bottom in seen.outlines(source, look="rf-envelope"):
            around += 1
            for words in (
                words for words in seen.all_words(source) if top < (words.top + words.bottom) / 2 < bottom
            ):
                assert (
                    (left <= words.left and words.right <= right)
                    or words.right <= left
                    or right <= words.left
                ), f"{name}: {words}"
    assert around > 100


def test_no_word_of_an_end_is_broken(catalogue):
    for lead in catalogue.leads.values():
        said = (
            " ".join(words.words for words in seen.all_words(draw(catalogue, lead.id)))
            .replace("\u00a0", " ")
            .replace(lead.name, "")
        )
        for end in lead.ends.values():
            assert set(end.label.replace("-", " ").split()) <= set(said.replace("-", " ").split()), lead.id


def test_numbers_beside_one_another_do_not_read_as_one(catalogue):
    for connector in (each for each in catalogue.connectors.values() if each.shape == "rectangular"):
        for half in connector.halves:
            numbers = [
                words
                for words in seen.all_words(draw(catalogue, connector.id, "face", half))
                if words.words in connector.contacts
            ]
            for one, two in combinations(numbers, 2):
                assert abs(one.top - two.top) > 5 or one.right + 2 <= two.left or two.right + 2 <= one.left, (
                    f"{connector.id}: {one}, {two}"
                )


def test_ids_are_unique_and_nothing_is_styled_inline(drawn):
    for name, source in drawn:
        ids = [element.get("id") for element in seen.root(source).iter() if element.get("id")]
        assert len(ids) == len(set(ids)) == 2, name
        assert all("style" not in element.attrib for element in seen.root(source).iter()), name
        assert source.count("<style") == 1, f"{name}: a file follows the reader's dark mode"


def test_default_prefixes_differ_so_that_all_can_stand_on_one_page(catalogue):
    ids = [seen.root(source).get("aria-labelledby") for _, source in pictures(catalogue)]
    assert len(ids) == len(set(ids))


def test_every_picture_is_described_in_words(drawn):
    for name, source in drawn:
        assert len(seen.described(source)) > 15 and seen.titles(source)[0], name


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("xlr-3", "plug"), "'xlr-3' (XLR, three contacts) has no view 'plug'; it has face, solder, side"),
        (
            ("phone-635-ts", "face"),
            "'phone-635-ts' (6.35 mm phone, two contacts (TS)) has no view 'face'; it has plug, side",
        ),
        (("xlr-3", "face", "plug"), "'xlr-3' (XLR, three contacts) has no half 'plug'; it has male, female"),
        (
            ("mic-dynamic-xlr", "face", "female"),
            "'mic-dynamic-xlr' (XLR, three contacts) has no half 'female'; it has male",
        ),
        (("xlr-f-to-xlr-m-3m", "face"), "'xlr-f-to-xlr-m-3m' is a lead and has no view 'face'; it has lead"),
        (
            ("xlr-f-to-xlr-m-3m", None, "male"),
            "'xlr-f-to-xlr-m-3m' is a lead and is drawn whole; it has no half to choose",
        ),
        (("xlr-33",), "nothing called 'xlr-33' can be drawn; did you mean 'xlr-3'?"),
        (("zzzzzzzz",), "nothing called 'zzzzzzzz' can be drawn"),
    ],
)
def test_what_cannot_be_drawn_is_refused_in_a_sentence(catalogue, arguments, message):
    with pytest.raises(ValueError) as caught:
        draw(catalogue, *arguments)
    assert str(caught.value) == message
