from itertools import product

import pytest

from generator.drawing import draw, draw_mated

from . import seen

PHONES = ["phone-35-ts", "phone-35-trs", "phone-35-trrs", "phone-635-ts", "phone-635-trs"]


def bands(source, contacts):
    """First and last edge of each drawn band after the tip, down the page, and how wide it is."""
    found = {}
    for contact in contacts[1:]:
        left, top, right, bottom = seen.outlines(source, title=f"band {contact}", look="rf-metal")[0]
        found[contact] = (top, bottom, abs(right - left))
    return found


@pytest.mark.parametrize("id", PHONES)
def test_bands_are_as_long_as_the_segments_and_the_barrel_as_thick(catalogue, id):
    connector = catalogue.connectors[id]
    half = connector.halves["plug"]
    drawn = bands(draw(catalogue, id, "plug", "plug"), connector.contacts)
    assert set(drawn) == set(connector.contacts[1:])
    scale = drawn["sleeve"][2] / half.sizes["diameter"]
    for contact, (left, right, high) in drawn.items():
        start, end = half.segments[contact]
        assert (right - left) / scale == pytest.approx(end - start, abs=0.03)
        assert high / scale == pytest.approx(half.sizes["diameter"], abs=0.03)
        assert (left - drawn["sleeve"][0]) / scale == pytest.approx(
            start - half.segments["sleeve"][0], abs=0.03
        )


def test_the_scale_bar_tells_the_truth(catalogue):
    drawn = draw(catalogue, "phone-635-trs")
    [bar] = [
        e
        for e in seen.root(drawn).iter(f"{seen.SVG}path")
        if e.get("class") == "rf-line" and e.get("d").count("L") == 3
    ]
    xs = [float(part.split()[1]) for part in bar.get("d").replace("L", "|L").split("|")]
    scale = bands(drawn, ["tip", "sleeve"])["sleeve"][2] / 6.35
    assert (max(xs) - min(xs)) / scale == pytest.approx(10, abs=0.05)
    assert "10 mm" in [words.words for words in seen.all_words(drawn)]


def landings(source):
    return [title for title in seen.titles(source) if " spring on " in title]


def test_two_contact_plug_in_three_contact_jack(catalogue):
    # published, phone-plug-mating: jack ring lands on the plug's sleeve
    assert landings(draw_mated(catalogue, "phone-635-ts", "phone-635-trs")) == [
        "tip spring on tip",
        "ring spring on sleeve",
        "sleeve spring on sleeve",
    ]


def test_three_contact_plug_in_four_contact_jack(catalogue):
    # published, phone-plug-mating: jack ring 2 lands on the plug's sleeve
    assert landings(draw_mated(catalogue, "phone-35-trs", "phone-35-trrs"))[1:3] == [
        "ring1 spring on ring",
        "ring2 spring on sleeve",
    ]


def test_four_contact_plug_in_three_contact_jack_depends_on_the_jack(catalogue):
    # published, phone-plug-mating: the sleeve spring meets sleeve or ring 2, depending on where it sits
    assert (
        landings(draw_mated(catalogue, "phone-35-trrs", "phone-35-trs"))[2]
        == "sleeve spring on ring2, sleeve or both"
    )


def test_a_contact_nothing_touches_is_told(catalogue):
    # published, phone-plug-mating: three-contact plug in a two-contact jack leaves its ring open
    drawn = draw_mated(catalogue, "phone-635-trs", "phone-635-ts")
    assert "ring touched by no spring" in [words.words for words in seen.all_words(drawn)]


def test_springs_touch_inside_their_intervals(catalogue):
    for id in PHONES:
        connector, drawn = catalogue.connectors[id], draw(catalogue, id, "plug", "jack")
        springs = connector.halves["jack"].springs
        ranges = {}
        for spring in springs:
            [(_, top, _, bottom)] = [
                box for box in seen.outlines(drawn, title=f"{spring} spring", look="rf-range")
            ]
            ranges[spring] = (top, bottom - top)
        scale = max(ranges.values(), key=lambda r: r[1])[1] / max(s.far - s.near for s in springs.values())
        for one, two in product(springs, repeat=2):
            assert ranges[one][0] - ranges[two][0] == pytest.approx(
                (springs[one].near - springs[two].near) * scale, abs=0.6
            )


@pytest.mark.parametrize(
    ("plug", "jack"), [("phone-35-trs", "phone-635-trs"), ("xlr-3", "xlr-3"), ("rca", "phone-35-ts")]
)
def test_what_does_not_go_in_is_refused(catalogue, plug, jack):
    with pytest.raises(ValueError) as caught:
        draw_mated(catalogue, plug, jack)
    assert str(caught.value) == f"a plug of '{plug}' does not go into a jack of '{jack}'"
