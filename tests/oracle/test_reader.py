"""The independent reader against sums done on paper, against leads that are wired wrong, and against ngspice.

Numbers are worked out beside each check from Ohm's law; what is published is said there.
"""

from __future__ import annotations

from dataclasses import replace
from math import exp, sqrt
from random import Random
from zlib import crc32

import numpy as np
import pytest
import reader_netlist
from by_hand import device, plugged, rated, source
from connections import short_list
from dangers import amplifier, dangers, read
from instants import BRIEF, march, strike
from islands import rated_pairs
from loud import HERTZ, alternating, loudness
from meters import Worst, ratings, show
from settings import OFF, ON, OPEN, modes, supply_volts
from simulator import needs_ngspice, simulate
from sums import boil, settle
from wiring import APART, HOME, PLUGGING, corners, wirings, worth

from generator.catalogue.records import Part

P48 = ("rail emf rail chassis 48 V by phantom", "feed-hot resistor rail hot 6.81 kohm", "feed-cold resistor rail cold 6.81 kohm")
SHORT = 1e-3  # ohm; a conductor with a rating is a part


def shown(wired, name: str, kind: str = HOME, corner: str = "nominal") -> float:
    """The most direct volts, amps or watts of a limit in the states of a kind, all switches on."""
    sums, asked = boil(wired, corner, slice(None)), modes(wired)
    volts = next(supply_volts(sums, corner))[1]
    found = show(sums, settle(sums, (volts * asked.on[0])[None], asked.gone[0]), asked.gone[0])
    [k] = [k for k, one in enumerate(wired.rated) if one.limit.id == name]
    return float(found[0, wired.kinds == kind, k].max())


def states(hits, name: str) -> set[str]:
    """The kinds of state in which a limit is passed."""
    return {hit.state for hit in hits if hit.part == name}


# Direct current


@pytest.mark.parametrize("legs, milliamperes", [("hot-a screen-c", 48 / 6.81), ("hot-a cold-a screen-c", 2 * 48 / 6.81)])
def test_a_phantom_leg_and_both_shorted_to_contact_1(catalogue, legs, milliamperes):
    """7.05 mA and 14.10 mA; "about 14 mA" is published."""
    inlet = device(catalogue, *P48, "bond wire screen chassis", supplies=["phantom"])
    outlet = device(catalogue, f"short resistor a c {SHORT} ohm", limits=[rated("short", "amps", "short", 1.0)])
    wired = plugged(inlet, outlet, legs)
    assert shown(wired, "short") == pytest.approx(milliamperes / 1000, rel=1e-4)


def test_the_strong_corner_has_the_upper_supply_and_the_lower_resistor(catalogue):
    """52 V over 6.81 kohm less 20 %: 9.545 mA; 44 V over 20 % more, at the weak one: 5.384 mA."""
    inlet = device(catalogue, "rail emf rail chassis 48 V +-4 V by phantom", "feed resistor rail hot 6.81 kohm +-20 %", supplies=["phantom"])
    outlet = device(catalogue, f"short resistor a c {SHORT} ohm", limits=[rated("short", "amps", "short", 1.0)])
    wired = plugged(outlet, inlet, "a-hot c-chassis")
    assert shown(wired, "short", corner="strong") == pytest.approx(52 / 5448, rel=1e-4)
    assert shown(wired, "short", corner="weak") == pytest.approx(44 / 8172, rel=1e-4)


def test_t_power_into_a_coil(catalogue):
    """12 V through twice 180 ohm into 200 ohm: 21.4 mA, 91.8 mW."""
    inlet = device(catalogue, "rail emf rail chassis 12 V", "feed-hot resistor rail hot 180 ohm", "feed-cold resistor chassis cold 180 ohm")
    outlet = device(catalogue, "coil resistor a b 200 ohm", limits=[rated("amps", "amps", "coil", 1.0), rated("watts", "watts", "coil", 1.0)])
    wired = plugged(outlet, inlet, "a-hot b-cold")
    assert shown(wired, "amps") == pytest.approx(12 / 560, rel=1e-4)
    assert shown(wired, "watts") == pytest.approx((12 / 560) ** 2 * 200, rel=1e-4)


@pytest.mark.parametrize("milliamperes, volts", [(1, 44.6), (2, 41.2), (3, 37.8), (5, 31.0), (10, 13.95)])
def test_what_phantom_leaves_at_a_microphone(catalogue, milliamperes, volts):
    """48 V less the current through 3.405 kohm."""
    inlet = device(catalogue, *P48, supplies=["phantom"])
    outlet = device(catalogue, f"draw sink a c {milliamperes} mA knee 5 V", limits=[rated("across", "volts", "a c", 100.0)])
    assert shown(plugged(outlet, inlet, "a-hot a-cold c-chassis"), "across") == pytest.approx(volts, rel=1e-3)


def test_a_sink_below_its_knee_is_a_resistor(catalogue):
    """10 V behind 1 kohm, a sink of 8 mA that needs 5 V: a resistor of 625 ohm, 3.846 V, 6.154 mA."""
    inlet = device(catalogue, "rail emf rail chassis 10 V", "feed resistor rail hot 1 kohm")
    outlet = device(catalogue, "draw sink a c 8 mA knee 5 V", limits=[rated("amps", "amps", "draw", 1.0), rated("across", "volts", "a c", 100.0)])
    wired = plugged(outlet, inlet, "a-hot c-chassis")
    assert shown(wired, "across") == pytest.approx(10 * 625 / 1625, rel=1e-4)
    assert shown(wired, "amps") == pytest.approx(10 / 1625, rel=1e-4)


def test_clamps_conduct_above_their_value_and_only_one_way(catalogue):
    """48 V behind 6.81 kohm on 15 V with 20 ohm: 33 / 6830 = 4.83 mA. Two in a row, 15 and 12 V: 21 / 6850. The other way round: nothing."""
    inlet = device(catalogue, "rail emf rail chassis 48 V", "feed resistor rail hot 6.81 kohm")
    limits = [rated("amps", "amps", "one", 1.0)]
    for lines, amps in ((["one clamp a c 15 V series 20 ohm"], 33 / 6830),
                        (["one clamp a b 15 V series 20 ohm", "two clamp b c 12 V series 20 ohm"], 21 / 6850),
                        (["one clamp c a 15 V series 20 ohm"], 0.0)):
        wired = plugged(device(catalogue, *lines, limits=limits), inlet, "a-hot c-chassis")
        assert shown(wired, "amps") == pytest.approx(amps, rel=1e-3, abs=1e-8)


def test_wrong_way_round_counts_one_way_only(catalogue):
    inlet = device(catalogue, "rail emf rail chassis 5 V", "feed resistor rail hot 1 kohm")
    for nodes, volts in (("a c", 0.0), ("c a", 5.0)):
        outlet = device(catalogue, f"block capacitor {nodes} 10 uF", limits=[rated("block", "reverse", "block", 1.5)])
        assert shown(plugged(outlet, inlet, "a-hot c-chassis"), "block") == pytest.approx(volts, abs=1e-3)


def test_what_nothing_joins_has_no_voltage(catalogue):
    """A leg of 48 V on one contact of a device that is joined nowhere else: nothing flows, so nothing is read."""
    inlet = device(catalogue, *P48, supplies=["phantom"])
    outlet = device(catalogue, "block capacitor a b 10 uF", "load resistor b chassis 1 kohm", limits=[rated("block", "volts", "block", 10.0)])
    wired = plugged(outlet, inlet, "a-hot chassis-chassis", "a-hot", "chassis-chassis")
    assert shown(wired, "block", PLUGGING) == pytest.approx(48.0, rel=1e-3)  # with mains earth there is a way
    apart = plugged(replace(outlet, earthed="no"), inlet, "a-hot chassis-chassis", "a-hot", "chassis-chassis")
    assert shown(apart, "block", PLUGGING) == 0.0
    assert shown(apart, "block") == pytest.approx(48.0, rel=1e-3)


# States, settings, corners


def test_states_are_home_and_plugging_each_without_and_with_earth(catalogue):
    outlet, inlet = (device(catalogue, "load resistor a chassis 1 kohm") for _ in range(2))
    wired = plugged(outlet, inlet, "a-a chassis-chassis", "a-a")
    assert list(zip(wired.kinds.tolist(), wired.earthed.tolist())) == [
        (HOME, False), (PLUGGING, False), (PLUGGING, False), (HOME, True), (PLUGGING, True), (PLUGGING, True), (APART, False)]
    for one, other in ((replace(outlet, earthed="no"), inlet), (outlet, device(catalogue, "load resistor a b 1 kohm"))):
        assert not plugged(one, other, "a-a").earthed.any()


def test_mains_earth_makes_a_way_that_the_plug_does_not(catalogue):
    """30 V behind 2 ohm on a contact that the other side has on its chassis: 30 / 2.02 = 14.9 A with both earthed, nothing without."""
    outlet = device(catalogue, "rail emf rail chassis 30 V", "source resistor rail a 2 ohm", limits=[rated("source", "amps", "source", 0.315)], earthed="yes")
    inlet = device(catalogue, "bond wire b chassis", "load resistor b chassis 1 kohm", earthed="yes")
    [hit] = read(plugged(outlet, inlet, "a-b"))
    assert hit.value == pytest.approx(30 / 2.02, rel=1e-3) and "with earth" in hit.setting
    assert not read(plugged(replace(outlet, earthed="no"), inlet, "a-b"))


def test_a_supply_that_is_off_is_a_rail_at_nothing_or_no_rail(catalogue):
    """Two phantom inputs leg to leg: 48 V over twice 6.81 kohm into a rail at 0 V, nothing into an open one, nothing where both are on."""
    one = device(catalogue, P48[0], P48[1], "bond wire screen chassis", supplies=["phantom"], limits=[rated("feed", "amps", "feed-hot", 1.0)])
    wired = plugged(one, one, "hot-hot screen-screen")
    asked, sums = modes(wired), boil(wired, "nominal", slice(None))
    assert set(asked.positions) == {(a, b) for a in (ON, OFF, OPEN) for b in (ON, OFF, OPEN)}
    at = {positions: k for k, positions in enumerate(asked.positions)}
    for positions, amps in (((ON, ON), 0.0), ((ON, OFF), 48 / 13620), ((OFF, ON), 48 / 13620), ((ON, OPEN), 0.0), ((OFF, OFF), 0.0), ((OPEN, ON), 0.0)):
        gone = asked.gone[at[positions]]
        found = show(sums, settle(sums, (sums.values[list(sums.supplies)] * asked.on[at[positions]])[None], gone), gone)
        assert found[0, wired.kinds == HOME].max() == pytest.approx(amps, rel=1e-3, abs=1e-8)


def test_an_open_rail_can_be_the_worse_kind_of_off(catalogue):
    """30 V on a leg of an input that is off: the rail at 0 V draws it down, the open one leaves 30 V on its capacitor, which stands 25 V."""
    inlet = device(catalogue, "rail emf rail chassis 12 V by phantom", "feed resistor rail hot 1 kohm", "couple capacitor hot in 10 uF", "load resistor in chassis 10 kohm",
                   "bond wire screen chassis", supplies=["phantom"], limits=[rated("couple", "volts", "couple", 25.0)])
    outlet = device(catalogue, "battery emf rail screen 30 V", "source resistor rail hot 1 kohm")
    hits = [hit for hit in read(plugged(outlet, inlet, "hot-hot screen-screen")) if hit.state == "settled"]
    assert [hit.value for hit in hits] == [pytest.approx(30.0, rel=1e-3)] and "rail open" in hits[0].setting


def test_supplies_of_two_places_are_pulled_apart(catalogue):
    """12 V +-1 V against 12 V +-1 V through 10 ohm: 0.2 A, though all strong and all weak give none."""
    battery = device(catalogue, "cell emf plus minus 12 V +-1 V", "inside resistor plus out 5 ohm", limits=[rated("inside", "amps", "inside", 0.15)])
    hits = read(plugged(battery, battery, "out-out minus-minus"))
    assert hits and [hit.value for hit in hits] == pytest.approx([2 / 10.02] * len(hits), rel=1e-3)
    assert all("strong at" in hit.setting or "weak at" in hit.setting for hit in hits)


def test_matched_pairs_are_pulled_apart(catalogue):
    """48 V through two resistors that differ by 0.4 %, 10 mA from a centre tap: 10 mA x 0.004 / 2 more in one leg, where half is 5 mA."""
    inlet = device(catalogue, *P48, supplies=["phantom"], limits=[rated("feed", "amps", "feed-hot", 1.0)])
    parts = [replace(part, skew={"feed-hot": -1, "feed-cold": 1}.get(part.id, 0), match=0.004) for part in inlet.network.parts]
    inlet = replace(inlet, network=replace(inlet.network, parts=tuple(parts)))
    outlet = device(catalogue, "draw sink a c 10 mA knee 1 V")
    wired = plugged(outlet, inlet, "a-hot a-cold c-chassis")
    assert corners(wired) == ("nominal", "apart pairs")
    assert shown(wired, "feed", corner="apart pairs") - shown(wired, "feed") == pytest.approx(10e-6, rel=0.01)


# Signal


def test_headphones_behind_120_ohm(catalogue):
    """5 V behind 120 ohm into 32 ohm: 34.6 mW, as a table of the trade prints it."""
    outlet = device(catalogue, "drive emf x y 0 V", "out resistor x hot 120 ohm", sources=[source("drive", 5.0)])
    inlet = device(catalogue, "ear resistor a b 32 ohm", limits=[rated("ear", "watts", "ear", 1.0)])
    wired = plugged(outlet, inlet, "hot-a y-b")
    assert loudness(wired, modes(wired), "nominal", HOME).max() == pytest.approx(5**2 * 32 / 152**2, rel=1e-3)


def test_two_outputs_of_24_dbu_against_each_other(catalogue):
    """100 ohm each, peaks opposed: 2 x 17.36 V over 200 ohm, 174 mA."""
    volts = sqrt(0.6) * 10 ** (24 / 20)
    output = device(catalogue, "drive emf x y 0 V", "out resistor x hot 100 ohm", sources=[source("drive", volts)], limits=[rated("out", "amps", "out", 0.1)])
    hits = read(plugged(output, output, "hot-hot y-y"))
    assert hits and [hit.value for hit in hits] == pytest.approx([0.1736] * len(hits), rel=2e-3)


def test_a_blocked_source_is_weaker_at_20_hz_and_a_winding_counts_direct_current_alone(catalogue):
    outlet = device(catalogue, "drive emf x y 0 V", "couple capacitor x hot 10 uF", sources=[source("drive", 1.0)])
    inlet = device(catalogue, "load resistor a b 1 kohm", limits=[rated("load", "volts", "a b", 1.0), rated("amps", "amps", "load", 1e-6)])
    wired = plugged(outlet, inlet, "hot-a y-b")
    peak = loudness(wired, modes(wired), "nominal", HOME)[0, 0]
    assert peak[0] == pytest.approx(sqrt(2), rel=1e-3)  # the worst of three frequencies
    coil = replace(inlet, network=replace(inlet.network, parts=tuple(replace(part, coil="voice coil") for part in inlet.network.parts)))
    assert peak[1] > 1e-3 and loudness(plugged(outlet, coil, "hot-a y-b"), modes(wired), "nominal", HOME)[0, 0, 1] == 0.0


def test_a_source_whose_switch_is_off_sends_nothing(catalogue):
    outlet = device(catalogue, "drive emf x y 0 V", "out resistor x hot 1 ohm", supplies=["amplifier"], sources=[source("drive", 24.0, supply="amplifier")])
    inlet = device(catalogue, "load resistor a b 8 ohm", limits=[rated("load", "watts", "load", 1.0)])
    wired = plugged(outlet, inlet, "hot-a y-b")
    asked = modes(wired)
    assert asked.positions == ((ON,), (OFF,))
    assert loudness(wired, asked, "nominal", HOME)[:, 0, 0] == pytest.approx([24**2 * 8 / 9.02**2, 0.0], rel=1e-3)


# The first instant


def struck(wired, corner: str = "nominal"):
    """The hits of the first instants alone."""
    worst, sums, asked = Worst(wired), boil(wired, corner, slice(None)), modes(wired)
    volts = next(supply_volts(sums, corner))[1]
    charges = []
    for on, gone in zip(asked.on, asked.gone):
        found = settle(sums, (volts * on)[None], gone)[0]
        a, b = sums.across(wired.large)
        charges.append((found[:, a] - found[:, b]) * sums.tied(gone, np.array([a, b]).T))
    strike(wired, asked, corner, volts, np.array(charges), worst)
    return list(worst.found.values())


def test_a_charged_capacitor_into_10_ohm(catalogue):
    """48 V behind 10 ohm: 4.8 A, less what two contacts, the bond and the capacitor take (31 mohm)."""
    inlet = device(catalogue, *P48[:2], "couple capacitor hot in 47 uF", f"bond resistor in chassis {SHORT} ohm", supplies=["phantom"])
    outlet = device(catalogue, "load resistor a c 10 ohm", limits=[rated("load", "amps", "load", 1.0)])
    hits = struck(plugged(outlet, inlet, "a-hot c-chassis"))
    assert states(hits, "load") >= {"first instant, home"}
    assert max(hit.value for hit in hits) == pytest.approx(48 / 10.031, rel=1e-3)


INPUT = ("rail emf rail chassis 48 V by phantom", "feed-hot resistor rail hot 6.81 kohm", "feed-cold resistor rail cold 6.81 kohm",
         "couple-hot capacitor hot in-hot 47 uF", "couple-cold capacitor cold in-cold 47 uF", "to-earth-hot resistor in-hot chassis 10 kohm",
         "to-earth-cold resistor in-cold chassis 10 kohm", "load resistor in-hot in-cold 3 kohm")


def phantom_input(catalogue, limit):
    return device(catalogue, *INPUT, supplies=["phantom"], limits=[limit])


def test_switching_phantom_on_lifts_the_input_stage(catalogue):
    """48 V x 10 / 16.81 = 28.55 V at first, falling with 47 uF x 16.81 kohm = 0.79 s: above 25 V for 105 ms. Ten seconds of 28 V are allowed, so that only the march decides."""
    outlet = device(catalogue, "coil resistor a b 200 ohm")
    for seconds, found in ((28.0, set()), (25.0, {"for seconds"}), (25.3, set())):
        wired = plugged(outlet, phantom_input(catalogue, rated("input", "volts", "in-hot chassis", 10.0, momentary=50.0, seconds=seconds)), "a-hot b-cold")
        assert states(struck(wired), "input") == found, seconds
    at_once = plugged(outlet, phantom_input(catalogue, rated("input", "volts", "in-hot chassis", 25.0)), "a-hot b-cold")
    assert max(hit.value for hit in struck(at_once)) == pytest.approx(48 * 10 / 16.81, rel=2e-3)


def test_a_leg_shorted_pulls_the_input_stage_below(catalogue):
    """The capacitor held 48 V unplugged; a lead that grounds the leg holds 48 V against the stage, though settled there is nothing."""
    outlet = device(catalogue, f"short resistor a c {SHORT} ohm")
    wired = plugged(outlet, phantom_input(catalogue, rated("input", "volts", "in-hot chassis", 25.0)), "a-hot c-chassis")
    assert max(hit.value for hit in struck(wired) if "unplugged" in hit.setting) == pytest.approx(48.0, rel=2e-3)
    assert shown(wired, "input") < 0.01


def test_the_march_follows_the_exponential(catalogue):
    """10 uF behind 10 kohm, from 48 V: 48 x exp(-1) after a tenth of a second, within the percent that steps of 2 ms cost."""
    inlet = device(catalogue, "couple capacitor hot chassis 10 uF")
    outlet = device(catalogue, "load resistor a c 10 kohm", limits=[rated("load", "volts", "a c", 100.0)])
    wired = plugged(outlet, inlet, "a-hot c-chassis")
    sums = boil(wired, "nominal", np.flatnonzero(wired.kinds == HOME), np.array([2e-3 / 10e-6]))
    least = march(sums, np.zeros((1, 0)), np.zeros(0, dtype=bool), np.full((1, 1, 1), 48.0))
    assert BRIEF == 0.1 and least.max() == pytest.approx(48 * exp(-1), rel=0.012)


def test_what_falls_within_a_tenth_of_a_second_counts_as_a_moment(catalogue):
    """20 V on a part for 44 V momentarily and 10 V for seconds: 4.7 uF through 10 kohm halve in 33 ms, 47 uF in 326 ms."""
    for microfarads, found in ((4.7, set()), (47, {"for seconds"})):
        outlet = device(catalogue, f"couple capacitor a in {microfarads} uF", "load resistor in c 10 kohm",
                        limits=[rated("in", "volts", "in c", 1.0, momentary=44.0, seconds=10.0)])
        inlet = device(catalogue, "rail emf rail chassis 20 V by feed", "feed resistor rail hot 10 ohm", supplies=["feed"])
        assert states(struck(plugged(outlet, inlet, "a-hot c-chassis")), "in") == found


# The rule for amplifiers, and mutants


def test_an_amplifier_into_anything_that_is_no_loudspeaker(catalogue):
    of = {kind: next(port for port in catalogue.ports.values() if {one.kind for one in port.listeners} == {kind} and not port.sources)
          for kind in ("loudspeaker", "digital", "microphone")}
    amplified = next(port for port in catalogue.ports.values() if any(one.kind == "loudspeaker" for one in port.sources) and not port.listeners)
    assert not amplifier(amplified, of["loudspeaker"])
    assert amplifier(amplified, of["digital"]) and amplifier(amplified, of["microphone"]) and amplifier(of["digital"], amplified)
    assert not amplifier(of["microphone"], of["digital"])


def mutant(catalogue, lead: str, *lines: tuple[str, str], without: tuple[str, ...] = ()):
    """A lead with more wires in it, and without some of its conductors."""
    whole = catalogue.leads[lead]
    kept = [part for part in whole.network.parts if not any(node in (part.a, part.b) for node in without)]
    extra = [Part(f"fault{k}", "wire", *nodes) for k, nodes in enumerate(lines)]
    return replace(whole, network=replace(whole.network, parts=(*kept, *extra)))


@pytest.mark.parametrize("outlet, fault, harmed", [
    ("mic-ribbon-xlr", ("a.2", "a.1"), "winding"),
    ("mic-ribbon-xlr", ("a.3", "a.1"), "winding"),
    ("mic-condenser-p48-xlr", ("a.3", "a.1"), "across"),
])
def test_a_leg_joined_to_the_screen_under_phantom_is_caught(catalogue, outlet, fault, harmed):
    """Hot or cold on the screen puts phantom across a ribbon's transformer (48 V / 6.81 kohm, 7 mA) or the legs of a condenser microphone; the
    lead as it is made does not."""
    broken = replace(catalogue, leads={**catalogue.leads, "broken": mutant(catalogue, "xlr-f-to-xlr-m-3m", fault)})
    inlet = "mixer-mic-in-p48-xlr"
    assert any(harmed in hit.part for hit in dangers(broken, (outlet, ("broken",), inlet)) if hit.state == "settled")
    assert not any(harmed in hit.part for hit in dangers(catalogue, (outlet, ("xlr-f-to-xlr-m-3m",), inlet)) if hit.state == "settled")


# Against a circuit simulator

DRAWN = 40  # pairings beside the short list
ALIKE, FLOOR = 1e-5, 1e-6


def drawn(catalogue, every_pairing) -> list:
    """The short list, which has every template and every kind of part in it, and those whose ids are drawn."""
    by_chance = sorted(every_pairing, key=lambda pairing: crc32(" ".join((pairing[0], *pairing[1], pairing[2])).encode()))
    return [*short_list(catalogue, every_pairing), *by_chance[:DRAWN]]


def case_of(wired, chance: Random):
    """A drawn corner, mode and state with what capacitors hold there (none when they are open)."""
    asked, corner = modes(wired), chance.choice(corners(wired))
    return asked, corner, chance.randrange(len(asked.positions)), chance.randrange(len(wired.closed) - 1), chance.random() < 0.5


@pytest.mark.oracle
@needs_ngspice
def test_direct_current_and_first_instants_agree_with_ngspice(catalogue, every_pairing, record_property):
    texts, own = [], []
    for pairing in drawn(catalogue, every_pairing):
        for wired in wirings(catalogue, catalogue.ports[pairing[0]], [catalogue.leads[name] for name in pairing[1]], catalogue.ports[pairing[2]]):
            chance = Random(" ".join((pairing[0], *pairing[1], pairing[2])))
            asked, corner, mode, state, charged = case_of(wired, chance)
            charged = charged and bool(wired.large)
            sums = boil(wired, corner, np.array([state]), np.full(len(wired.large), reader_netlist.HELD) if charged else None)
            volts, gone = sums.values[list(sums.supplies)] * asked.on[mode], asked.gone[mode]
            held = np.array([[[chance.uniform(-50, 50) for _ in sums.capacitors]]]) if charged else None
            found = settle(sums, volts[None], gone, held)[0, 0]
            texts.append(reader_netlist.direct(wired, sums.values, state, dict(zip(sums.supplies, volts)), {i for i, away in zip(sums.supplies, gone) if away},
                                               dict(zip(sums.capacitors, held[0, 0])) if charged else {}))
            pairs = rated_pairs(wired)[sums.tied(gone, rated_pairs(wired))[0]]
            own.append((pairing, pairs, found))
    hold(texts, own, record_property)


@pytest.mark.oracle
@needs_ngspice
def test_signal_agrees_with_ngspice(catalogue, every_pairing, record_property):
    texts, own = [], []
    for pairing in drawn(catalogue, every_pairing):
        for wired in wirings(catalogue, catalogue.ports[pairing[0]], [catalogue.leads[name] for name in pairing[1]], catalogue.ports[pairing[2]]):
            chance = Random(" ".join((pairing[0], *pairing[1], pairing[2])))
            asked, corner, _, state, _ = case_of(wired, chance)
            if not asked.sources:
                continue
            place, source_ = chance.choice(asked.sources)
            hertz = chance.choice(HERTZ[HOME])
            values = np.array([worth(piece.part, corner) for piece in wired.pieces])
            found = alternating(wired, [(place, source_)], values, np.array([state]), np.array([2j * np.pi * hertz]))[0, 0, :, 0]
            at = {piece.id: i for i, piece in enumerate(wired.pieces)}
            texts.append(reader_netlist.alternating(wired, values, state, {at[f"{place}/{part}"]: share for part, share in source_.drive.items()}, hertz))
            own.append((pairing, rated_pairs(wired), found))
    hold(texts, own, record_property)


def hold(texts, own, record_property) -> None:
    wrong, compared = [], 0
    for (pairing, pairs, found), [analysis] in zip(own, simulate(texts)):
        largest = np.abs(found[:max(pairs.max(initial=0) + 1, 1)]).max()
        for a, b in pairs:
            mine, other = found[a] - found[b], analysis[f"n{a}"] - analysis[f"n{b}"]
            compared += 1
            if not abs(mine - other) <= ALIKE * abs(other) + FLOOR * max(largest, 1e-3):
                wrong.append(f"{pairing}: {mine:.9g}, ngspice has {other:.9g}")
    record_property("told", f"reader against ngspice: {compared} numbers of {len(texts)} circuits")
    assert compared and not wrong, f"{len(wrong)} of {compared}:\n" + "\n".join(wrong[:20])
