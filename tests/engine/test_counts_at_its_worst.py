"""What nobody can choose counts at its worst: every order of plugging, every landing, mains earth there or
not. Devices of a few parts, with numbers one works out on paper (derived, where nothing else is said)."""

import pytest
from box import BOND, DRIVE, assembled, hears, inlet, judged, just, lead, outlet, read, sends, stands

from generator.engine.assemble import ways
from generator.engine.discharge import discharge_readings
from generator.engine.glance import glance, plainly
from generator.engine.hearing import signal_readings
from generator.engine.signal import solve_signals
from generator.engine.verdict import RANK

EASY = DRIVE, "build-out resistor stage hot 100 ohm", BOND


def values(found, quantity):
    return {reading.subject: reading.value for reading in found if reading.quantity == quantity}


def test_either_end_of_a_lead_may_be_plugged_first(catalogue):
    """published [encyclopedia-xlr-connector]: contact 1 makes first, then 2 or 3. While one plug goes in, the
    other sits home or hangs free."""
    target = inlet(catalogue, "load resistor hot chassis 10 kohm", BOND)
    assembly = assembled(catalogue, outlet(catalogue, *EASY), target, lead(catalogue, "1", "2", "3"))

    def plugged(state):
        touching = [(joint, a) for (joint, (a, _)), shut in zip(assembly.touches, state) if shut]
        return tuple("".join(contact for at, contact in touching if at == joint) for joint in (0, 1))

    on_its_way = ("", "1", "12", "13")
    expected = {(some, other) for some in on_its_way for other in ("", "123")} | {
        (other, some) for some in on_its_way for other in ("", "123")
    }
    assert {plugged(state) for state in assembly.plugging} == expected - {("123", "123")}
    assert [plugged(state) for state in assembly.home] == [("123", "123")]
    assert {plugged(state) for state in assembly.halves} == {("", "123"), ("123", "")}


def test_the_use_a_lead_is_made_for_comes_first(catalogue):
    """A Y lead feeds two inputs alike; one tail left lying is another use of it."""
    found = ways(
        catalogue,
        catalogue.ports["mic-dynamic-xlr"],
        [catalogue.leads["xlr-f-to-two-xlr-m"]],
        catalogue.ports["mixer-mic-in-p48-xlr"],
    )
    meant = [way.meant for way in found]
    assert meant == sorted(meant, reverse=True) and set(meant) == {True, False}
    assert all(bool(way.plugged) for way in found if way.meant)


def test_a_capacitor_that_is_shorted_gives_what_it_holds(catalogue):
    """10 uF at 48 V: C V^2 / 2 = 11.52 mJ."""
    feeds = inlet(
        catalogue,
        "rail emf rail chassis 48 V",
        "feed resistor rail hot 6.81 kohm",
        "couple capacitor hot in 10 uF",
        "load resistor in chassis 10 kohm",
        BOND,
        supply="phantom",
    )
    found = discharge_readings(
        assembled(catalogue, outlet(catalogue, "other resistor cold chassis 1 kohm", BOND), feeds)
    )
    assert {round(r.words["energy"], 7) for r in found if r.quantity == "discharge-amps"} == {0.0115200}


def test_a_supply_that_is_switched_on_strikes_through_an_empty_capacitor(catalogue):
    """48 V over 6.81 and 10 kohm: 28.6 V behind the capacitor at first, more than the 10 V which that part
    stands for a moment. Once charged nothing lies there, and plugging with the supply on meets it charged."""
    feeds = inlet(
        catalogue,
        "rail emf rail chassis 48 V",
        "feed resistor rail hot 6.81 kohm",
        "couple capacitor hot in 10 uF",
        "load resistor in chassis 10 kohm",
        BOND,
        supply="phantom",
        limits=[stands(catalogue, "volts", "load", 5.0, 10.0)],
    )
    found = discharge_readings(
        assembled(catalogue, outlet(catalogue, "other resistor cold chassis 1 kohm", BOND), feeds)
    )
    [struck] = {(r.state, round(r.value, 2)) for r in found if r.quantity == "part-volts"}
    assert struck == ("switching", 28.55)


def test_a_path_that_mains_earth_alone_completes_is_none(catalogue):
    """common practice: a lead whose screen is broken hums or is silent, whatever else ties the chassis."""
    start = outlet(catalogue, *EASY, sources=(sends(),), earthed="maybe")
    target = inlet(
        catalogue, "load resistor hot chassis 10 kohm", BOND, listeners=(hears(),), earthed="maybe"
    )
    assert judged(catalogue, start, target, lead(catalogue, "1", "2")).verdict in ("safe", "lossy")
    assert judged(catalogue, start, target, lead(catalogue, "2")).verdict == "no signal"


def test_a_side_that_hardly_arrives_is_missing_and_not_too_quiet(catalogue):
    """The right channel through 990 kohm into 10 kohm: a hundredth, 40 dB below the left one. It is
    told as missing, once."""
    start = outlet(
        catalogue,
        DRIVE,
        "build-out resistor stage hot 1 ohm",
        "drive-right emf stage-right chassis 0 V",
        "build-out-right resistor stage-right cold 990 kohm",
        BOND,
        sources=(
            sends("left", nominal=1.0),
            sends("right", emf="drive-right", output=("cold", "screen"), nominal=1.0),
        ),
    )
    target = inlet(
        catalogue,
        "load resistor hot chassis 10 kohm",
        "load-right resistor cold chassis 10 kohm",
        BOND,
        listeners=(
            hears("left", sensitivity=1.0),
            hears("right", between=("cold", "screen"), sensitivity=1.0),
        ),
    )
    found = read(catalogue, start, target)
    assert values(found, "side-gain")["from/right>into/right"] == pytest.approx(-40, abs=0.01)
    assert set(values(found, "under-level")) == {"from/left>into/left"}


@pytest.mark.parametrize("ohms, cause", [("0.35 ohm", "shorted"), ("0.45 ohm", "open")])
def test_an_amplifier_on_less_than_a_tenth_of_its_least_load_is_shorted(catalogue, ohms, cause):
    """Made for 4 ohm. At 0.4 ohm an amplifier of 0.1 ohm still gives four fifths of its volts: no
    drop tells of the short."""
    start = outlet(
        catalogue,
        DRIVE,
        "inner resistor stage hot 0.1 ohm",
        BOND,
        sources=(sends(kind="loudspeaker", least_load=4.0),),
    )
    target = inlet(
        catalogue, f"load resistor hot chassis {ohms}", BOND, listeners=(hears(kind="loudspeaker"),)
    )
    assembly = assembled(catalogue, start, target)
    [path] = [r for r in signal_readings(assembly, solve_signals(assembly)) if r.quantity == "path-gain"]
    assert path.flags["cause"] == cause


def seen(catalogue, *connection):
    """The rank of a first look."""
    own, *asked = just(catalogue, *connection)
    return glance(plainly(own), *asked)[0]


def test_a_first_look_takes_every_part_at_its_nominal_value(catalogue):
    """96 V behind 10 kohm into 10 kohm are 48 V, which a part for 50 V stands; a verdict
    knows that it may be 52 V."""
    start = outlet(
        catalogue,
        DRIVE,
        "build-out resistor stage hot 10 kohm",
        BOND,
        sources=(sends(),),
        limits=[stands(catalogue, "volts", ("hot", "chassis"), 50.0, 60.0)],
    )
    target = inlet(
        catalogue,
        "rail emf rail chassis 96 V +-8 V",
        "feed resistor rail hot 10 kohm",
        BOND,
        listeners=(hears(),),
    )
    assert judged(catalogue, start, target).verdict == "dangerous"
    assert seen(catalogue, start, target) < RANK["dangerous"]


def test_a_first_look_takes_the_end_a_person_would(catalogue):
    """One tail carries the signal, the other, which says so, carries nothing."""
    start = outlet(catalogue, *EASY, sources=(sends(),))
    target = inlet(catalogue, "load resistor hot chassis 10 kohm", BOND, listeners=(hears(),))
    forked = lead(catalogue, "11b", "22b", tails="bc", labels=("wired", "not wired"))
    assert (
        seen(catalogue, start, target, forked)
        == seen(catalogue, start, target, lead(catalogue, "1", "2"))
        < RANK["no signal"]
    )


def test_an_end_that_does_harm_counts_beside_one_that_does_not(catalogue):
    """Whoever picks up the lead may pick the other tail: its contact 2 brings 12 V onto a
    contact 3 that stands 5 V."""
    start = outlet(
        catalogue,
        *EASY,
        "spare resistor cold chassis 10 kohm",
        sources=(sends(),),
        limits=[stands(catalogue, "volts", "spare", 5.0, 5.0)],
    )
    target = inlet(
        catalogue, "rail emf rail chassis 12 V", "feed resistor rail hot 1 kohm", BOND, listeners=(hears(),)
    )
    assert judged(catalogue, start, target, lead(catalogue, "1", "2")).verdict != "dangerous"
    verdict = judged(
        catalogue,
        start,
        target,
        lead(catalogue, "1", "22b", "32c", tails="bc", labels=("to the mixer", "to the lamp")),
    )
    assert (verdict.verdict, verdict.plugs) == ("dangerous", ())


def test_nobody_has_to_plug_in_the_other_tail(catalogue):
    """12 V behind 10 kohm into two inputs of 10 kohm are 4 V, into one alone 6 V; each stands 5 V."""
    start = outlet(
        catalogue,
        DRIVE,
        "supply emf up stage 12 V",
        "build-out resistor up hot 10 kohm",
        BOND,
        sources=(sends(),),
    )
    target = inlet(
        catalogue,
        "load resistor hot chassis 10 kohm",
        BOND,
        listeners=(hears(),),
        limits=[stands(catalogue, "volts", "load", 5.0, 50.0)],
    )
    verdict = judged(catalogue, start, target, lead(catalogue, "1", "2", tails="bc"))
    assert {end for way, end in verdict.ways if way.meant} != {"dangerous"}
    assert verdict.verdict == "dangerous"
    assert {round(f.value, 2) for f in verdict.findings if f.id == "over-volts"} == {6.0}
