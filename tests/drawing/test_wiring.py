from generator.catalogue.records import Coupling, Part
from generator.drawing.wiring import plan

from .conftest import ROUND, THREE, TWO, lead

ENDS = {"a": ROUND, "b": ROUND}


def laid(which, connectors=ENDS, tops=("a",)):
    return plan(which, connectors, tops)


def chain(lane):
    return [sorted(net.nodes) for net in lane.nets]


def test_a_straight_lead_has_a_lane_for_each_join():
    made = laid(lead({"screen": ["a.1", "b.1"], "hot": ["a.2", "b.2"], "cold": ["a.3", "b.3"]}))
    assert [lane.nets[0].label for lane in made.lanes] == ["screen", "hot", "cold"]
    assert [net.screen for lane in made.lanes for net in lane.nets] == [True, False, False]
    assert made.steps == []


def test_contacts_of_one_end_in_a_join_are_one_net():
    made = laid(lead({"hot": ["a.2", "b.tip"], "screen": ["a.1", "a.3", "b.sleeve"]}), {"a": ROUND, "b": TWO})
    assert made.lanes[0].nets[0].tops == [("a", "1"), ("a", "3")] and made.lanes[0].nets[0].bottoms == [
        ("b", "sleeve")
    ]


def test_an_unwired_contact_has_no_lane_and_a_hanging_screen_has_one():
    made = laid(lead({"hot": ["a.2", "b.2"], "screen": ["b.1"]}, cable="pair"))
    assert sorted(lane.nets[0].label for lane in made.lanes) == ["hot", "screen"]
    assert next(lane.nets[0] for lane in made.lanes if lane.nets[0].screen).hanging


def test_a_pad_has_two_resistors_in_line_and_one_across_after_them():
    # the U-pad of the trade: one resistor in each leg, one across the output
    parts = [
        Part("hot", "resistor", "a.2", "b.2"),
        Part("cold", "resistor", "a.3", "b.3"),
        Part("across", "resistor", "b.2", "b.3"),
    ]
    made = laid(lead({"screen": ["a.1", "b.1"]}, parts))
    kinds = {step.parts[0].id: (step.kind, step.level) for step in made.steps}
    assert kinds == {"hot": ("series", 0), "cold": ("series", 0), "across": ("across", 1)}
    assert chain(made.lanes[1]) == [["a.2"], ["b.2"]] and made.lanes[1].cuts == [0]


def test_a_part_drawn_from_its_second_terminal_is_turned():
    (step,) = laid(lead({}, [Part("d", "clamp", "b.2", "a.2")])).steps
    assert step.kind == "series" and step.turned


def test_a_transformer_cuts_both_lanes_in_one_step():
    parts = [Part("p", "inductor", "a.2", "a.3"), Part("s", "inductor", "b.2", "b.3")]
    made = laid(lead({"screen": ["a.1", "b.1"]}, parts, [Coupling("p", "s", 0.999)]))
    (step,) = made.steps
    assert step.kind == "transformer" and [chain(made.lanes[n]) for n in step.lanes[:2]] == [
        [["a.2"], ["b.2"]],
        [["a.3"], ["b.3"]],
    ]


def test_a_transformer_whose_windings_share_a_net_is_still_a_transformer():
    parts = [Part("p", "inductor", "a.2", "a.1"), Part("s", "inductor", "b.2", "a.1")]
    (step,) = laid(lead({"screen": ["a.1", "b.1"]}, parts, [Coupling("p", "s", 0.999)])).steps
    assert step.kind == "transformer" and len(step.lanes) == 4


def test_a_lattice_has_no_order_down_the_page_and_gets_lanes_of_its_own():
    # each output leg fed from both input legs: no way of putting parts in line meets the nets in order
    parts = [
        Part("one", "resistor", "a.2", "b.2"),
        Part("two", "resistor", "a.3", "b.3"),
        Part("three", "resistor", "a.2", "b.3"),
        Part("four", "resistor", "a.3", "b.2"),
    ]
    made = laid(lead({}, parts))
    assert sorted(part.id for step in made.steps for part in step.parts) == ["four", "one", "three", "two"]
    assert all(len(lane.nets) == 1 for lane in made.lanes) and len(made.lanes) == 4


def test_a_part_beside_another_in_the_same_wire_is_kept():
    made = laid(lead({}, [Part("r", "resistor", "a.2", "b.2"), Part("c", "capacitor", "a.2", "b.2")]))
    assert sorted(step.parts[0].id for step in made.steps) == ["c", "r"]


def test_parts_between_inner_nodes_alone_are_not_lost():
    made = laid(lead({}, [Part("r", "resistor", "x", "y"), Part("q", "resistor", "y", "a.2")]))
    assert sorted(step.parts[0].id for step in made.steps) == ["q", "r"]


def test_two_ends_may_stand_above():
    which = lead(
        {"hot": ["one.2", "two.2", "b.tip"]},
        ends={"one": ("round", "female"), "two": ("round", "female"), "b": ("three", "plug")},
    )
    made = laid(which, {"one": ROUND, "two": ROUND, "b": THREE}, ("one", "two"))
    assert made.lanes[0].nets[0].tops == [("one", "2"), ("two", "2")]
