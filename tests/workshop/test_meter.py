"""What a meter should read. The published figures are those of meter manuals and wire tables; the circuits
are worked by hand."""

from math import inf

import pytest

from generator.workshop import readings
from generator.workshop.instrument import shown
from generator.workshop.specimen import on_bench

from .leads import xlr


def read(catalogue, lead):
    """pair -> Reading."""
    return {reading.pair: reading for reading in readings.readings(on_bench(catalogue, lead))}


def middle(reading):
    return (reading.low + reading.high) / 2


@pytest.mark.parametrize("id", ["xlr-f-to-xlr-m-3m", "xlr-f-to-xlr-m-20m", "xlr-f-to-xlr-m-100m"])
def test_a_plain_lead(catalogue, id):
    """24 AWG is 84.2 ohm/km (published tables): 10 m of core is 0.842 ohm."""
    lead = catalogue.leads[id]
    found = read(catalogue, lead)
    for contact in "23":
        assert (
            found[f"a.{contact}-b.{contact}"].low
            < 0.0842 * lead.length + 0.02
            < found[f"a.{contact}-b.{contact}"].high
        )
    assert found["a.1-b.1"].high < found["a.2-b.2"].low * 1.01 or lead.length < 10
    assert all(
        reading.low == inf for pair, reading in found.items() if pair not in ("a.1-b.1", "a.2-b.2", "a.3-b.3")
    )


def test_the_inside_of_a_u_pad(catalogue):
    """680 / 150 / 680 with the shunt at the male: 680 ohm through, 1510 ohm in the female, 150 ohm in the
    male."""
    found = read(catalogue, catalogue.leads["xlr-f-to-xlr-m-pad-20-db"])
    for pair, ohms in {
        "a.2-b.2": 680,
        "a.3-b.3": 680,
        "a.2-a.3": 1510,
        "b.2-b.3": 150,
        "a.2-b.3": 830,
        "a.1-b.1": 0,
    }.items():
        assert middle(found[pair]) == pytest.approx(ohms, abs=0.1), pair


def test_the_inside_of_an_o_pad(catalogue):
    """2.74 k, 2 x 3.6 k, 200 ohm (published design for 2 kohm at its input): 2.000 k, 196.1 ohm, and 2.322
    k through."""
    parts = [
        ("in", "resistor", "a.2", "a.3", "2.74 kohm"),
        ("hot", "resistor", "a.2", "b.2", "3.6 kohm"),
        ("cold", "resistor", "a.3", "b.3", "3.6 kohm"),
        ("out", "resistor", "b.2", "b.3", "200 ohm"),
    ]
    found = read(catalogue, xlr(parts, [("screen", ("a.1", "b.1"))]))
    for pair, ohms in {"a.2-a.3": 2000, "b.2-b.3": 196.1, "a.2-b.2": 2322}.items():
        assert middle(found[pair]) == pytest.approx(ohms, rel=1e-3), pair


def test_a_transformer_shows_its_windings_and_nothing_through(catalogue):
    found = read(catalogue, catalogue.leads["xlr-f-to-xlr-m-transformer-joined"])
    assert found["a.2-b.2"].low == found["a.3-b.3"].low == inf
    assert 10 < found["a.2-a.3"].low < found["a.2-a.3"].high < 300


def test_a_capacitor_beeps_once(catalogue):
    """1 mA takes 47 uF to 0.5 V in 23.5 ms; 20 % either way."""
    reading = read(catalogue, catalogue.leads["xlr-f-to-xlr-m-phantom-block"])["a.2-b.2"]
    assert reading.beep == "once"
    assert sum(reading.chirp) / 2 == pytest.approx(23.5e-3, rel=1e-3)
    assert readings.said(reading) == "beeps for 28.2 ms at most, climbs, ends with no reading: a capacitor"


def test_a_capacitor_behind_a_small_resistor_climbs_too(catalogue):
    """22 uF behind 100 ohm: a capacitance meter reads no plain value, an ohmmeter fills it all the same.
    Behind 10 kohm nothing beeps."""
    found = read(catalogue, catalogue.leads["bnc-to-35-trs-timecode-attenuator"])
    for pair in ("a.shell-b.tip", "b.tip-b.sleeve"):
        assert (found[pair].beep, found[pair].farad, found[pair].chirp) == ("once", None, None), pair
        assert readings.said(found[pair]) == "climbs, ends with no reading: a capacitor"
    assert found["a.centre-b.tip"].beep == "no"


@pytest.mark.parametrize("ohms, off", [(0.842, 0.207), (0.253, 0.202), (2.526, 0.220)])
def test_the_error_of_a_cheap_meter(ohms, off):
    """0.8 % and 2 digits of 0.1 ohm on the 200 ohm range, as a manual prints it."""
    assert readings.error(ohms) == pytest.approx(off, abs=5e-4)


@pytest.mark.parametrize("ohms, beep", [(10, "yes"), (70, "perhaps"), (150, "no")])
def test_a_beep_is_not_a_pass(catalogue, ohms, beep):
    """Three manuals print 50 ohm, one 100: what lies between beeps on some meters."""
    found = read(catalogue, xlr([("r", "resistor", "a.2", "b.2", f"{ohms} ohm")]))
    assert found["a.2-b.2"].beep == beep
    assert "40 Ω in one leg leaves 48 dB" in readings.unseen()
    assert "cannot tell differences below 0.3 Ω" in readings.unseen()


def test_a_junction_is_told_and_nothing_concluded(catalogue):
    found = read(catalogue, catalogue.leads["xlr-f-to-xlr-m-t-power-from-phantom"])
    assert found["a.1-a.2"].junction and found["a.1-a.2"].beep == "either way"
    assert readings.said(found["a.1-a.2"]).startswith("depends on which probe is where")


def test_the_diode_range_on_a_junction(catalogue):
    """Some 0.6 V one way and, below the regulator's 12 V, nothing the other way."""
    specimen = on_bench(catalogue, catalogue.leads["xlr-f-to-xlr-m-t-power-from-phantom"])
    forward, backward = shown(specimen, [("b.1", "a.2"), ("a.2", "b.1")], volts=3.2, amps=1e-3)
    assert 0.5 < forward.volts < 0.9 and forward.amps == pytest.approx(1e-3)
    assert backward.ohms == inf


def test_the_windows_hold_a_meter_put_into_the_circuit(catalogue):
    """For every lead and every pair: a solver with the meter in the circuit, which the windows are not made
    with, shows what they hold."""
    count = 0
    for lead in catalogue.leads.values():
        specimen = on_bench(catalogue, lead)
        expected = readings.readings(specimen)
        for bound in (0, 1):
            for reading, seen in zip(
                expected, shown(specimen, [(r.a, r.b) for r in expected], 3.2, 1e-3, bound)
            ):
                count += 1
                if seen.ohms > 19e6:
                    assert reading.high == inf, (lead.id, reading, seen)
                else:
                    assert reading.low * 0.999 - 1e-3 <= seen.ohms <= reading.high * 1.001 + 1e-3, (
                        lead.id,
                        reading,
                        seen,
                    )
                    if not any(part.kind == "clamp" for part in specimen.parts):
                        assert seen.ohms == pytest.approx(
                            (reading.low, reading.high)[bound], rel=1e-3, abs=1e-3
                        ), (lead.id, reading)
    assert count > 15000


def test_every_pair_of_every_lead_is_there_once(catalogue):
    for lead in catalogue.leads.values():
        contacts = [
            f"{end.id}.{contact}"
            for end in lead.ends.values()
            for contact in catalogue.connectors[end.connector].contacts
            if contact not in catalogue.connectors[end.connector].light
        ]
        wanted = {frozenset((one, other)) for one in contacts for other in contacts if one != other}
        found = [frozenset((r.a, r.b)) for r in readings.readings(on_bench(catalogue, lead))]
        assert wanted <= set(found) and len(found) == len(set(found)), lead.id


def test_supplies_are_off_and_out(catalogue):
    specimen = on_bench(catalogue, catalogue.leads["xlr-f-to-xlr-m-phantom-supply"])
    assert not [part for part in specimen.parts if part.kind == "emf"]
