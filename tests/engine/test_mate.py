"""Who touches whom: published landings first, trade convention where no page was found, and the way in."""

import pytest

from generator.catalogue.records import Connector, Evidence, Half, Spring
from generator.engine.mate import OPPOSITE, PLUGS, RECEPTACLES, fits, mate

PUBLISHED, PRACTICE = "published [phone-plug-mating]", "common practice"
SIZES = ("phone-635", "phone-35")


def homes(catalogue, jack, plug):
    """Every way a plug can sit fully home: jack contact -> plug segments."""
    mating = mate((catalogue.connectors[jack], "jack"), (catalogue.connectors[plug], "plug"))
    return [
        {
            contact: {segment for own, segment in state if own == contact}
            for contact in catalogue.connectors[jack].contacts
        }
        for state in mating.home
    ]


@pytest.mark.parametrize("size", SIZES)
def test_ts_plug_in_trs_jack_ties_ring_to_sleeve(catalogue, size):
    """published [phone-plug-mating, pro-audio-connection-guide]."""
    assert homes(catalogue, f"{size}-trs", f"{size}-ts") == [
        {"tip": {"tip"}, "ring": {"sleeve"}, "sleeve": {"sleeve"}}
    ]


@pytest.mark.parametrize("size", SIZES)
def test_trs_plug_in_ts_jack_leaves_the_plugs_ring_open(catalogue, size):
    """published [phone-plug-mating]."""
    assert homes(catalogue, f"{size}-ts", f"{size}-trs") == [{"tip": {"tip"}, "sleeve": {"sleeve"}}]


LANDINGS = [  # jack, plug, jack contact -> plug segment, evidence
    (
        "phone-35-trrs",
        "phone-35-trs",
        {"tip": "tip", "ring1": "ring", "ring2": "sleeve", "sleeve": "sleeve"},
        PUBLISHED + " [phone-headset-spec]",
    ),
    (
        "phone-35-trrs",
        "phone-35-ts",
        {"tip": "tip", "ring1": "sleeve", "ring2": "sleeve", "sleeve": "sleeve"},
        PRACTICE,
    ),
    (
        "phone-35-trrs",
        "phone-35-trrs",
        {"tip": "tip", "ring1": "ring1", "ring2": "ring2", "sleeve": "sleeve"},
        PRACTICE,
    ),
    ("phone-35-trs", "phone-35-trs", {"tip": "tip", "ring": "ring", "sleeve": "sleeve"}, PRACTICE),
    ("phone-635-trs", "phone-635-trs", {"tip": "tip", "ring": "ring", "sleeve": "sleeve"}, PRACTICE),
]


@pytest.mark.parametrize("jack, plug, landing, evidence", LANDINGS)
def test_fully_home(catalogue, jack, plug, landing, evidence):
    assert homes(catalogue, jack, plug) == [{contact: {segment} for contact, segment in landing.items()}], (
        evidence
    )


def test_trrs_plug_in_trs_jack_depends_on_where_the_sleeve_spring_sits(catalogue):
    """published in part [phone-plug-mating]: tip and ring meet tip and ring1; the sleeve spring finds
    ring2, the sleeve, or both."""
    found = homes(catalogue, "phone-35-trs", "phone-35-trrs")
    assert all(state["tip"] == {"tip"} and state["ring"] == {"ring1"} for state in found)
    assert sorted(sorted(state["sleeve"]) for state in found) == [["ring2"], ["ring2", "sleeve"], ["sleeve"]]


def test_trrs_plug_in_ts_jack_leaves_the_first_ring_open(catalogue):
    """common practice: left only; what the jack takes for common is ring2 or the sleeve."""
    found = homes(catalogue, "phone-35-ts", "phone-35-trrs")
    assert all(state["tip"] == {"tip"} and state["sleeve"] <= {"ring2", "sleeve"} for state in found)
    assert {"sleeve"} in [state["sleeve"] for state in found]


@pytest.mark.parametrize("jack", ["phone-635-trs", "phone-35-trs", "phone-35-trrs"])
def test_on_the_way_in_the_tip_passes_every_other_contact_and_reaches_its_own_last(catalogue, jack):
    """common practice: a half-inserted plug shifts the contacts by one segment."""
    connector = catalogue.connectors[jack]
    travel = mate((connector, "jack"), (connector, "plug")).travel
    first = {
        contact: next(i for i, state in enumerate(travel) if (contact, "tip") in state)
        for contact in reversed(connector.contacts)
    }
    assert list(first.values()) == sorted(first.values()), "from the mouth of the jack to its far end"
    assert {segment for state in travel for contact, segment in state if contact == "tip"} == {"tip"}, (
        "nothing but the tip gets that far"
    )


def test_a_half_inserted_plug_joins_the_jacks_ring_to_the_tip_while_ring_lies_on_the_sleeve(catalogue):
    """published [phantom-how-much]: this is how phantom on a TRS patch jack strikes a
    microphone while plugging."""
    connector = catalogue.connectors["phone-635-trs"]
    assert (
        frozenset({("ring", "tip"), ("sleeve", "ring")})
        in mate((connector, "jack"), (connector, "plug")).travel
    )


def test_xlr_contact_1_makes_first_then_2_or_3(catalogue):
    """published [encyclopedia-xlr-connector, phantom-menace]: the socket of contact 1 stands forward; 2 and 3
    do not follow at the same instant."""
    xlr = catalogue.connectors["xlr-3"]
    mating = mate((xlr, "female"), (xlr, "male"))
    assert mating.travel[0] == {("1", "1")}
    assert set(mating.travel[1:]) == {
        frozenset({("1", "1"), ("2", "2")}),
        frozenset({("1", "1"), ("3", "3")}),
    }
    assert mating.home == (frozenset({("1", "1"), ("2", "2"), ("3", "3")}),)


def test_rca_pin_makes_before_the_shell(catalogue):
    """from memory; calipers on several makes would confirm it."""
    rca = catalogue.connectors["rca"]
    assert mate((rca, "jack"), (rca, "plug")).travel == (frozenset({("centre", "centre")}),)


def test_mating_is_the_same_from_either_side(catalogue):
    halves = [(connector, half) for connector in catalogue.connectors.values() for half in connector.halves]
    for one in halves:
        for other in halves:
            there, back = mate(one, other), mate(other, one)
            assert (there is None) == (back is None) == (not fits(one, other))
            if there:
                for ours, theirs in ((there.home, back.home), (there.travel, back.travel)):
                    assert [{(b, a) for a, b in state} for state in ours] == [set(state) for state in theirs]


@pytest.mark.parametrize(
    "one, other",
    [
        (("phone-635-trs", "jack"), ("phone-35-trs", "plug")),  # too thin
        (("phone-35-trs", "jack"), ("phone-635-trs", "plug")),  # too thick
        (("xlr-3", "female"), ("xlr-3", "female")),
        (("phone-35-trs", "plug"), ("phone-35-trs", "plug")),
        (("xlr-3", "female"), ("mini-xlr-3", "male")),
        (("xlr-3", "female"), ("phone-635-trs", "plug")),
    ],
)
def test_halves_that_do_not_go_into_each_other(catalogue, one, other):
    assert mate(*((catalogue.connectors[name], half) for name, half in (one, other))) is None


@pytest.mark.parametrize("socket, plug", [("din-8", "din-5-180"), ("din-5-180", "din-3")])
def test_a_socket_with_more_room_takes_a_plug_it_was_not_made_for_and_no_socket_with_less(
    catalogue, socket, plug
):
    """common practice: a plug of three pins goes into five holes, where they stand alike; five pins do not go
    into three, nor eight into five."""
    large, small = catalogue.connectors[socket], catalogue.connectors[plug]
    [inlet], [outlet] = (
        [half for half in family.halves if half in halves]
        for family, halves in ((large, RECEPTACLES), (small, PLUGS))
    )
    assert fits((large, inlet), (small, outlet)) and fits((small, outlet), (large, inlet))
    assert not fits((small, OPPOSITE[outlet]), (large, OPPOSITE[inlet]))


# Made-up connectors: the geometry itself


def phone(springs=None, segments=None):
    halves = {"jack": Half("jack", springs=springs or {}), "plug": Half("plug", segments=segments or {})}
    return Connector(
        "made-up",
        "made-up",
        "concentric",
        "b",
        tuple(springs or segments),
        halves,
        {},
        None,
        "",
        (),
        Evidence("from memory"),
    )


def test_a_spring_wider_than_the_insulator_bridges_two_segments():
    plug, jack = (
        phone(segments={"tip": (0, 4), "sleeve": (5, 14)}),
        phone(springs={"tip": Spring(4.5, 4.5, 2.0)}),
    )
    assert mate((jack, "jack"), (plug, "plug")).home == (frozenset({("tip", "tip"), ("tip", "sleeve")}),)


def test_a_spring_narrower_than_the_insulator_can_rest_on_it():
    plug, jack = (
        phone(segments={"tip": (0, 4), "sleeve": (5, 14)}),
        phone(springs={"tip": Spring(4.5, 4.5, 0.5)}),
    )
    assert mate((jack, "jack"), (plug, "plug")).home == (frozenset(),)


def test_every_place_a_maker_may_have_put_the_spring_is_a_state():
    plug, jack = phone(segments={"tip": (0, 4), "sleeve": (5, 14)}), phone(springs={"tip": Spring(3, 6, 0.5)})
    assert set(mate((jack, "jack"), (plug, "plug")).home) == {
        frozenset({("tip", "tip")}),
        frozenset(),
        frozenset({("tip", "sleeve")}),
    }


def test_contacts_that_stand_equal_make_in_any_order():
    halves = {"female": Half("female", forward={"1": 0.0, "2": 0.0}), "male": Half("male")}
    family = Connector(
        "made-up", "made-up", "circular", "b", ("1", "2"), halves, {}, None, "", (), Evidence("from memory")
    )
    assert set(mate((family, "female"), (family, "male")).travel) == {
        frozenset({("1", "1")}),
        frozenset({("2", "2")}),
    }
