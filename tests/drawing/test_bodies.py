"""Side views: one scale, the catalogue's own millimetres, nothing cut off, and what one knows each by."""

from math import radians, sin

import pytest

from generator.drawing import draw

from . import seen

SCALE = 3.2  # px to the millimetre, of all


def sides(catalogue):
    for connector in catalogue.connectors.values():
        for half, mounts in connector.outside.body.items():
            for mount in mounts:
                yield connector, half, mount, draw(catalogue, connector.id, "side", half, mount=mount)


def test_every_half_of_every_family_has_one(catalogue):
    for connector in catalogue.connectors.values():
        assert set(connector.outside.body) == set(connector.halves), connector.id
        for half, mounts in connector.outside.body.items():
            assert draw(catalogue, connector.id, "side", half).startswith("<svg"), (
                f"{connector.id} {half} {list(mounts)}"
            )


def test_it_is_as_long_and_as_wide_as_the_catalogue_says(catalogue):
    """The frame of the picture is the thing, 3 px of air around it, the beginning of a cable,
    and a bit of the panel."""
    for connector, half, mount, drawn in sides(catalogue):
        pieces = connector.outside.body[half][mount]
        long = sum(piece.long for piece in pieces) + (6 if mount == "cable" else 0)
        # rows of pins or posts
        apart = 2 * max(
            (abs(spot.radius * sin(radians(spot.angle))) for spot in connector.face.values()), default=0
        )
        wide = max(
            max(piece.wide, piece.back) + (apart if piece.kind in ("pins", "posts", "strands") else 0)
            for piece in pieces
        ) + (5 if mount == "panel" else 0)
        root = seen.root(drawn)
        assert float(root.get("width")) == pytest.approx(long * SCALE + 6, abs=0.1), (
            connector.id,
            half,
            mount,
        )
        assert -0.1 <= float(root.get("height")) - wide * SCALE - 6 <= 6 * SCALE, (connector.id, half, mount)


def test_the_bands_of_a_plug_are_those_that_mate(catalogue):
    phones = [
        one for one in catalogue.connectors.values() if one.shape == "concentric" and "plug" in one.halves
    ]
    assert len(phones) > 10
    for connector in phones:
        part = connector.halves["plug"]
        drawn = seen.outlines(draw(catalogue, connector.id, "side", "plug"), look="rf-metal")
        bands = [part.segments[contact] for contact in connector.contacts][1:]
        for start, end in bands:
            wanted = (3 + start * SCALE, 3 + end * SCALE, part.sizes["diameter"] * SCALE)
            assert any(
                abs(left - wanted[0]) < 0.2
                and abs(right - wanted[1]) < 0.2
                and abs(bottom - top - wanted[2]) < 0.2
                for left, top, right, bottom in drawn
            ), f"{connector.id}: {start}..{end} mm"


def test_nothing_of_a_side_view_is_cut_off(catalogue):
    for connector, half, mount, drawn in sides(catalogue):
        root = seen.root(drawn)
        for left, top, right, bottom in seen.outlines(drawn):
            assert left >= 0 and top >= 0, (connector.id, half, mount)
            assert right <= float(root.get("width")) and bottom <= float(root.get("height")), (
                connector.id,
                half,
                mount,
            )


@pytest.mark.parametrize(
    ("connector", "half", "known"),
    [
        ("xlr-3", "female", "key, tab"),
        ("xlr-3", "male", "window"),
        ("bnc", "plug", "slot"),
        ("bnc", "jack", "lugs"),
        ("push-pull-4", "male", "dot"),
        ("d-sub-25", "male", "screws"),
        ("rj45", "male", "clip"),
        ("phone-35-trs-locking", "plug", "inside thread"),
        ("din-5-180", "male", "key"),
    ],
)
def test_it_tells_what_one_knows_it_by(catalogue, connector, half, known):
    assert f"One knows it by: {known}." in seen.described(draw(catalogue, connector, "side", half))


def test_it_tells_how_its_size_is_known(catalogue):
    assert "(published)" in seen.described(draw(catalogue, "bnc", "side", "plug"))
    assert "(from memory)" in seen.described(draw(catalogue, "mini-xlr-3", "side", "male"))


def test_what_looks_the_same_takes_its_own_measures(catalogue):
    """The body of the two-contact plug is the three-contact one's, its bands are its own."""
    two, three = (
        catalogue.connectors[name].outside.body["plug"]["cable"] for name in ("phone-635-ts", "phone-635-trs")
    )
    assert (
        two[1:] == three[1:]
        and two[0].long == catalogue.connectors["phone-635-ts"].halves["plug"].segments["sleeve"][1]
    )


@pytest.mark.parametrize(
    ("mount", "view", "message"),
    [
        ("panel", "side", "'phone-35-trs' has no side view of its plug in a panel; it has cable"),
        (
            "panel",
            "plug",
            "'phone-35-trs' is on a cable or in a panel only in the view side; its plug is the same",
        ),
    ],
)
def test_a_mount_that_is_not_there_is_refused(catalogue, mount, view, message):
    with pytest.raises(ValueError) as caught:
        draw(catalogue, "phone-35-trs", view, "plug", mount=mount)
    assert str(caught.value) == message
