"""The closed formulas against arithmetic by hand, or a circuit simulator."""

from math import hypot, log10, sqrt

import pytest

from generator.interference.formulas import (
    balance,
    chassis,
    electric,
    field,
    hearing,
    length,
    pickup,
    radio,
    screen,
    wave,
)
from generator.interference.formulas.basics import COPPER, DBU, LIGHT, db, from_db, omega, parallel

from .nearly import level, near


def test_drain_wire_of_25_feet():
    assert 7.62 * 0.134 == near(1.02)
    assert db(0.316 / 316e-6) == level(60.0)


def test_earth_wire_nearer_to_one_load_wire():
    assert omega(50) * 2e-7 * 20 * 10 * 0.693147 == near(8.71e-3)
    assert pickup.loop_beside_wire(10, 20, 1, 2, 50) == near(8.71e-3)
    assert chassis.branch_difference(10, 0.6e-3, 0.24) == near(1.44e-3)


def test_screen_beside_a_minus_lead():
    amps = chassis.supply_share(1, 0.05, 0.15)
    assert (amps, amps * 0.15) == (near(0.25), near(0.0375))


def test_two_small_capacitors_at_opposite_poles():
    assert electric.current(230, 0.5e-9, 50) == near(36.1e-6)


@pytest.mark.parametrize(
    "common, short, exact",
    [(1e4, 60.0, 60.10), (2e4, 66.02, 66.07), (1e5, 80.0, 80.01), (1e6, 100.0, 100.0), (5e7, 133.98, 133.98)],
)
def test_ten_ohm_in_one_leg(common, short, exact):
    assert -db(balance.short_conversion(10, common)) == level(short)
    assert -db(balance.conversion(10, 50, common)) == level(exact)


def test_unbalanced_source_on_a_balanced_input():
    assert -db(balance.conversion(1e3, 0, 1e4)) == level(20.83)
    assert -db(balance.conversion(1e3, 0, 1e5)) == level(40.09)
    assert -db(balance.conversion(200, 0, 1e4)) == level(34.15)


def test_transformer_input():
    assert chassis.capacitor_ohm(50e-12, 50) == near(63.7e6)
    assert balance.leg_ohm(0, 50e-12, 50) == near(63.7e6)
    assert -db(balance.short_conversion(1e3, balance.leg_ohm(0, 50e-12, 50))) == level(96.1)


def test_phantom_feeds_apart():
    assert -db(balance.feed_pair_conversion(6810, 0.004, 75)) == level(87.3)
    assert -db(balance.feed_pair_conversion(6810, 0.001, 75)) == level(99.4, 0.07)


def test_field_factors():
    assert field.pair(1, 1, 1) == near(0.2e-6)
    assert field.three_flat(1, 1, 1) == near(0.3464e-6)
    assert field.three_triangle(1, 1, 1) == near(0.2449e-6)


def test_area_of_a_pair():
    assert pickup.twisted_area(2e-3, 30e-3, 10, 0) == near(1.91e-5)
    assert db(pickup.untwisted_area(2e-3, 10) / pickup.twisted_area(2e-3, 30e-3, 10, 0)) == level(60.4)
    assert pickup.twisted_area(2e-3, 30e-3, 30, 0.05) == near(0.47e-4, 0.01)


def test_loop_beside_one_conductor():
    assert pickup.loop_beside_wire(10, 1, 0.10, 0.105, 50) == near(30.7e-6)


def test_feeder_beside_a_zip_lead_and_beside_a_loop():
    close, wide = hypot(0.0015, 0.05), hypot(0.0035, 0.05)
    facing = pickup.loop_beside_pair(
        16, 10, close, wide, wide, close, 50
    )  # both flat, one above the other, 5 cm apart
    in_line = pickup.loop_beside_pair(16, 10, 0.0475, 0.0495, 0.0525, 0.0545, 50)
    assert max(facing, in_line) == near(40.1e-6)
    assert pickup.uniform(field.pair(16, 5e-3, 0.05), pickup.untwisted_area(2e-3, 10), 50) == near(40.2e-6)
    crosswise = pickup.loop_beside_pair(16, 10, hypot(0.0025, 0.05), hypot(0.0025, 0.05), 0.05, 0.05, 50)
    assert crosswise < 1e-12
    assert omega(50) * 16 * 10 * pickup.strip_beside_pair(5e-3, 0.05, 1.0) == near(0.957e-3)


def test_coil_of_spare_lead():
    assert pickup.uniform(5e-6, pickup.coil_area(10, 0.30), 50) == near(1.11e-3)


def test_transformer_with_distance():
    for distance, wanted in ((0.10, 4.73e-6), (0.30, 0.175e-6), (1.0, 0.0047e-6)):
        assert field.falling(37.8e-6, 0.05, distance) == near(wanted, 0.01)


def test_copper_does_nothing_at_the_mains():
    assert screen.crossing_field_loss(2.5e-3, 1e-4, 50) == pytest.approx(0.00004, abs=1e-5)
    assert screen.crossing_field_loss(2.5e-3, 1e-4, 1e3) == pytest.approx(0.014, abs=5e-4)
    assert screen.crossing_field_loss(2.5e-3, 1e-4, 1e4) == pytest.approx(1.23, abs=0.01)
    assert screen.skin_depth(50) == near(9.35e-3)
    assert 1 / COPPER == near(1.724e-8)


def test_two_round_wires():
    for distance, wanted in ((0.01, 9.29), (0.02, 7.54), (0.10, 5.25), (0.30, 4.35)):
        assert electric.two_wires(distance, 1e-3) == near(wanted * 1e-12)
    assert electric.two_wires(1e-3, 0.8e-3) == near(40.1e-12)


def test_ten_metres_beside_a_live_wire():
    farad = 10 * electric.two_wires(0.02, 1e-3)
    amps = electric.current(230, farad, 50)
    assert (amps, amps * 150, amps * 150 * 0.03) == (near(5.45e-6), near(0.817e-3), near(24.5e-6))
    assert electric.on_circuit(amps, 230, farad, 150, 0, 50) == near(0.817e-3)
    assert electric.on_circuit(amps, 230, farad, 1e12, 1e-9, 50) == near(
        230 * farad / (1e-9 + farad)
    )  # a divider, never more


def test_harmonics_of_a_dimmer():
    found = wave.spectrum("dimmer:0", 50)
    for share, wanted in zip(found[1:7], (0.537, 0.179, 0.179, 0.107, 0.107, 0.077)):
        assert share / found[0] == near(wanted, 0.006)
    assert sqrt(1 / found[0] ** 2 - 1) == near(0.649, 0.01)


def louder(kind, order):
    """A-weighted level against as many amps of pure 50 Hz, dB; `order` 1 for what grows with frequency."""
    shares = wave.spectrum(kind, 50)
    heard = hypot(
        *(
            (2 * i + 1) ** order * share * from_db(hearing.weighting(50 * (2 * i + 1)))
            for i, share in enumerate(shares)
        )
    )
    return db(heard) - hearing.weighting(50)


def test_a_dimmer_to_the_ear():
    assert louder("dimmer:0", 1) == level(50.3, 0.4)
    assert louder("dimmer:1e-4", 1) == level(46.3, 0.3)
    assert louder("dimmer:3e-4", 1) == level(40.7, 0.3)
    assert louder("dimmer:1e-4", 0) == level(17.6, 0.3)
    assert louder("rectifier:0.3", 1) == level(34.6, 0.3)
    assert louder("sine", 1) == level(0)


def test_floating_device_on_a_thin_lead():
    """Also run in a circuit simulator: 115 V behind 2.2 nF, 5 m of 134 mohm/m with its contacts, 1 kohm into
    20 kohm.
    """
    screen_ohm = 5 * 0.134 + 0.02
    assert chassis.screen_current(115, 0, 2.2e-9, 0, screen_ohm, 50) == near(79.5e-6)
    drop = chassis.screen_drop(115, 0, 2.2e-9, 0, screen_ohm, 0, 50)
    assert (drop, drop * chassis.divider(1e3, 20e3)) == (near(54.8e-6), near(52.2e-6))
    assert db(0.316228 / drop) == level(75.2)


def test_two_earthed_devices_on_a_thin_lead():
    drop = chassis.screen_drop(0.05, 0.5, 0, 0, 0.69, 0, 50)
    assert chassis.screen_current(0.05, 0.5, 0, 0, 0.69, 50) == near(0.042)
    assert drop == near(0.029)
    assert db(0.316228 / drop) == level(20.8)
    braid = chassis.screen_drop(0.05, 0.5, 0, 0, 0.0625, 0, 50)
    assert braid == near(5.56e-3) and db(braid / drop) == level(-14.4)
    bond = chassis.screen_drop(0.05, 0.5, 0, 0, 0.69, 0.05, 50)
    assert bond == near(4.26e-3) and db(bond / drop) == level(-16.6, 0.1)
    assert db(chassis.screen_drop(0.002, 0.5, 0, 0, 0.69, 0, 50) / drop) == level(-28.0)
    assert parallel(0.69, 0.05) == near(0.69 * 0.05 / 0.74)


def test_the_same_two_balanced():
    """Also run in a circuit simulator: 10 ohm in one leg, 10 kohm a leg; then with the screen open."""
    drop = chassis.screen_drop(0.05, 0.5, 0, 0, 0.69, 0, 50)
    assert drop * balance.short_conversion(10, 1e4) == near(29.0e-6)
    assert drop * balance.conversion(10, 50, 1e4) == near(28.7e-6, 0.01)
    apart = chassis.open_screen(0.05, 0.5, 0, 5e3, 50)
    assert apart * balance.short_conversion(10, 1e4) == near(50e-6)
    assert db(apart / drop) == level(4.7)


def test_opening_the_screen_toward_a_floating_device():
    """Also run in a circuit simulator: 81 dB worse than 30 m of joined braid."""
    common = 1 / (1 / 10050 + 1 / 10060)
    apart = chassis.open_screen(115, 0, 2.2e-9, common, 50)
    assert apart == near(0.400)
    difference = apart * balance.conversion(10, 50, 1e4)
    assert difference == near(0.395e-3, 0.01)
    joined = chassis.screen_drop(115, 0, 2.2e-9, 0, 0.45, 0, 50)
    assert joined == near(35.8e-6)
    assert joined * balance.short_conversion(10, 1e4) == near(36e-9, 0.01)
    assert db(difference / (joined * 1e-3)) == level(81, 0.3)


def test_drain_wire_under_a_tenth_of_an_amp():
    """The published test [shield-current-noise-paper] is 100 mA over 53 m at these frequencies; its
    millivolts were not seen, 5 nH/m is ours.
    """
    for hertz, wanted in ((50, 8.4e-6), (1e3, 168e-6), (6e3, 1005e-6)):
        assert screen.drain_wire(0.1, 5e-9, 53.34, hertz) == near(wanted)


def test_uneven_capacitance():
    for hertz, wanted in ((50, -112.6), (1e3, -86.5), (2e4, -60.5)):
        assert db(screen.uneven_capacitance(20, 100e-12, 0.05, 75, hertz)) == level(wanted)


def test_what_a_half_wave_takes_in():
    assert radio.half_wave_pickup(3.16e-3, 98e6) == near(3.08e-3)
    assert radio.half_wave_pickup(3.16e-3, 98e6) / radio.AERIAL_OHM == near(42.2e-6)
    assert radio.half_wave_pickup(1, 1e8) == near(0.954)
    assert radio.half_wave_pickup(1, 1e8) / radio.AERIAL_OHM == near(13.1e-3)


def test_junction():
    for volts, wanted in ((1e-4, 0.193e-6), (1e-3, 19.3e-6), (1e-2, 1934e-6)):
        assert radio.junction(volts) == near(wanted)
    assert radio.junction_input(0.308e-6) == near(0.126e-3)
    assert db(radio.junction(2e-4) / radio.junction(1e-4)) == level(
        12.04
    )  # every dB of radio is two of sound


def test_speech_at_a_metre():
    assert hearing.microphone_volts(1.85e-3, 60) == near(37e-6)
    assert hearing.microphone_volts(17.8e-3, 60) == near(356e-6)


def test_pair_beside_a_twisted_flex():
    tesla = field.twisted_pair(16, 5e-3, 0.10, 0.05)
    assert tesla == near(2.54e-6)
    volts = pickup.uniform(tesla, pickup.twisted_area(2e-3, 30e-3, 30, 0.05), 50)
    assert volts == near(37e-9, 0.02)
    assert db(volts / DBU) == level(-146.3, 0.2)
    assert volts * from_db(hearing.weighting(50) + louder("dimmer:1e-4", 1)) == near(0.24e-6, 0.02)


def test_unscreened_zip_lead_against_a_voice():
    volts = pickup.uniform(6.4e-6, pickup.untwisted_area(2e-3, 10), 50)
    assert db(volts / 37e-6) == level(0.7, 0.1)


def test_walkie_talkie_of_five_watts():
    assert radio.field(5, 1) == near(15.7)
    assert db(radio.field(5, 1) / 3) == level(14.4)
    assert radio.clear_distance(5, 3, radio.field(1, 1)) == near(5.2, 0.01)


def test_treble():
    """The corner formula [cable-capacitance-page]; the lengths are ours."""
    for farad, hertz, loss in ((100e-12, 79.6e3, -0.27), (150e-12, 53e3, -0.58), (160e-12, 49.7e3, -0.65)):
        assert length.corner(200, farad, 100) == near(hertz)
        assert length.treble(200, farad, 100, 20e3) == level(loss, 0.01)
    assert length.length_for(200, 100e-12, 20e3, 3.0103) == near(398)
    assert LIGHT / 1e6 == near(299.8)


# -- the trade's story of the long run and the station


def test_resonances_of_a_long_run():
    for metres, half, quarter in ((91.44, 1.557e6, 779e3), (99.06, 1.438e6, 719e3)):
        assert radio.resonances(metres, False, 0.95) == near(half)
        assert radio.resonances(metres, True, 0.95) == near(quarter)
    for hertz, halves in ((88e6, 4.71), (98e6, 5.24), (108e6, 5.78)):
        assert radio.quarter_waves(7.62, hertz, 0.95) / 2 == near(halves)


def test_a_long_run_turns_fm_into_sound():
    for metres, depth in ((3, 0.0066), (10, 0.022), (30, 0.066), (91.44, 0.202)):
        assert radio.slope_depth(metres, 75e3, 3, 0.95) == near(depth, 0.01)


def test_logarithm_is_told_where_there_is_nothing():
    assert db(0) is None
    assert 20 * log10(2) == level(6.02)
