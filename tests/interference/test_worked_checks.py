"""The closed formulas against worked examples: published results first, each with what its source prints;
then arithmetic of our own.

`published` rows name their source in the words of `tables/sources.yaml`; the tolerance is the source's own
rounding, told beside it.
"""

from math import hypot, log10, pi, sqrt

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
from generator.interference.formulas.basics import COPPER, DBU, E0, LIGHT, db, from_db, omega, parallel

NEAR = 0.005  # of a value, where nothing else is said
DB = 0.06  # of a level


def near(value, share=NEAR):
    return pytest.approx(value, rel=share)


def level(value, dbs=DB):
    return pytest.approx(value, abs=dbs)


# -- published results
# ----------------------------------------------------------------------------------------------


def test_leakage_of_a_supply_goes_with_volts_and_hertz():
    """Data pages of earthed supplies [leakage-data-pages] print 0.12 mA at 100 V 50 Hz, 0.18 at 120 V 60 Hz,
    0.30 at 230 V 50 Hz.
    """
    farad = 0.12e-3 / (omega(50) * 100)
    assert farad == near(3.82e-9)
    assert electric.current(120, farad, 60) == near(0.18e-3, 0.10)
    assert electric.current(230, farad, 50) == near(0.30e-3, 0.10)


def test_protective_conductor_of_a_socket_circuit():
    """[conductor-tables] print 19.51 mohm/m for 2.5 mm2 with 1.5 mm2."""
    assert (7.41 + 12.10) == near(19.51)
    assert 2 * 20 * 12.10e-3 == near(0.484)


def test_a_person_on_carpet():
    """[stray-capacitance-answers] print 405 pF (with e0 rounded to 9e-12) and 30 uA peak for 0.5 nF at 6e4
    V/s.
    """
    assert pickup.rectangle_of_plates(0.3, 0.3, 0.01, 5, E0) == near(398e-12)
    assert pickup.rectangle_of_plates(0.3, 0.3, 0.01, 5, E0) == near(405e-12, 0.02)
    assert 0.5e-9 * 6e4 == near(30e-6)


def test_current_through_a_body_s_capacitance():
    """[stray-capacitance-answers] print 3.5 uA peak for 50 pF at 117 V 60 Hz, from a slope rounded up."""
    assert electric.current(117, 50e-12, 60) * sqrt(2) == near(3.12e-6)
    assert electric.current(117, 50e-12, 60) * sqrt(2) == near(3.5e-6, 0.15)


def test_three_phases_side_by_side():
    """[field-of-a-line] prints 0.13 uT for 350 A, 5 m apart, at 70 m, and 0.35 as the factor."""
    assert field.three_flat(350, 5, 70) == near(0.1237e-6)
    assert field.three_flat(350, 5, 70) == near(0.13e-6, 0.05)
    assert field.three_flat(1, 1, 1) == near(0.35e-6, 0.02)


def test_twisted_feeder():
    """[twisted-pair-field] states 50 dB for one and a half lays, by theory and by measurement."""
    falls = {0.5: -8.0, 1.0: -27.5, 1.5: -49.9, 2.0: -73.6}
    for lays, wanted in falls.items():
        assert db(field.twist(lays, 1.0)) == level(wanted)
    assert db(field.twist(1.5, 1.0)) == level(-50, 0.5)
    assert db(field.twist_far(1.5, 1.0)) == level(-49.9, 0.1)


def test_two_wires_at_the_corner_of_a_triangle():
    """[opposite-currents-exercise] asks to show 25 uT: 5 A each way, 4 cm apart, the point 4 cm from both.
    The fields stand at 120 degrees.
    """
    assert field.wire(5, 0.04) == near(25e-6)


def test_flux_of_a_wire_through_a_rectangle():
    """[flux-exercise] prints 8.59e-8 Wb for 1.80 x 2.10 cm, 0.290 cm away, at 2.92 + 1.19 t^2 amps after 2.50
    s.
    """
    amps = 2.92 + 1.19 * 2.50**2
    assert amps == near(10.36)
    assert pickup.flux_of_wire(amps, 0.021, 0.0029, 0.0209) == near(8.59e-8)
    assert pickup.flux_of_wire(2 * 1.19 * 2.50, 0.021, 0.0029, 0.0209) == near(4.94e-8)


def test_loop_in_a_solenoid():
    """[solenoid-exercise] prints 27 mV/m round a 1 cm loop: 1650 turns a metre, 7 A peak, 60 Hz."""
    volts = pickup.uniform(pickup.solenoid_field(7, 1650), pi * 0.01**2, 60)
    assert volts == near(1.72e-3)
    assert volts / (2 * pi * 0.01) == near(27e-3, 0.02)


def test_corner_of_a_screen():
    """[coupling-summary] gives 600 Hz to 2 kHz for usual cables."""
    assert screen.corner(0.015, 1.5e-6) == near(1590)
    assert screen.corner(0.0085, 1.5e-6) == near(900, 0.01)
    assert 600 < screen.corner(0.0085, 1.5e-6) < screen.corner(0.015, 1.5e-6) < 2000


def test_tenth_of_a_picofarad():
    """[capacitive-coupling-page] prints 3 uV: 100 V, 50 Hz, 0.1 pF, 1 kohm."""
    amps = electric.current(100, 0.1e-12, 50)
    assert electric.on_circuit(amps, 100, 0.1e-12, 1e3, 0, 50) == near(3.14e-6)
    assert amps * 1e3 == near(3e-6, 0.05)


def test_two_hundred_millivolts():
    """[common-mode-guide] prints -11.76 dBu and 78.24 dB to a floor of -90 dBu."""
    assert db(0.2 / DBU) == level(-11.76)
    assert db(0.2 / DBU) + 90 == level(78.24)


def test_resistor_tolerance():
    """[common-mode-guide] prints 26 dB for 5 % and 40 dB for 1 %."""
    assert -db(balance.tolerance_conversion(0.05)) == level(26.0)
    assert -db(balance.tolerance_conversion(0.01)) == level(40.0)


def test_pigtail():
    """[screen-termination-pages] print 10 nH/cm, and 300 ohm for 5 cm at 1 GHz."""
    assert screen.pigtail_ohm(0.05, 1e8) == near(31.4)
    assert screen.pigtail_ohm(0.05, 1e9) == near(314)
    assert screen.pigtail_ohm(0.05, 1e9) == near(300, 0.05)


def test_field_of_a_kilowatt():
    """[field-strength-posts] print 313.372 mV/m (5.15 dBi, 1 km), 73.8045 (0.3015 W, -2.66 dBi, 30 m), 300
    (short mast), 221.4 (dipole).
    """
    assert radio.field(1e3, 1e3, 10**0.515) == near(0.313372, 0.001)
    assert radio.field(0.3015, 30, 10**-0.266) == near(0.0738045, 0.001)
    assert radio.field(1e3, 1e3, 3.0) == near(0.300)
    assert radio.field(1e3, 1e3) == near(0.2214, 0.003)


def test_close_to_an_fm_mast():
    """The US rule [field-strength-posts]: 562 mV/m at 0.394 km for 1 kW; 6.44 kW at 1 km alike; 11 nW at 3 m
    is 250 uV/m.
    """
    assert radio.field(1e3, 394) == near(0.562)
    assert radio.field(6440, 1e3) == near(0.562)
    assert radio.field(11e-9, 3) == near(250e-6, 0.03)


def test_proximity_levels_and_clear_distances():
    """[immunity-tables] print 27, 28 and 9 V/m at 0.3 m, and 1.2 / 3.8 / 12 m and 2.3 / 7.3 / 23 m for 3 V/m
    (they round the factor first).
    """
    for watts, printed in ((1.8, 27), (2, 28), (0.2, 9)):
        assert radio.proximity_field(watts, 0.3, 6) == near(printed, 0.015)
    for watts, low, high in ((1, 1.2, 2.3), (10, 3.8, 7.3), (100, 12, 23)):
        assert radio.clear_distance(watts, 3, 3.5) == near(low, 0.04)
        assert radio.clear_distance(watts, 3, 7) == near(high, 0.02)


def test_burst_of_a_phone_and_city_grade_fm():
    """[gsm-modulation-pages] give 216 and 217 Hz for 4.615 ms; [broadcast-range] 3.16 mV/m for 70 dB."""
    assert 1 / 4.615e-3 == near(216.7)
    assert radio.microvolts_per_metre(70) == near(3.16e-3)


def test_chokes():
    """[choke-pages] print 6 dB for 300 ohm on 300 ohm, 620 ohm in all, and nine times for three turns."""
    assert radio.ferrite_loss(300, 300) == level(6.02)
    assert radio.ferrite_loss(320, 300) == level(6.30)
    assert radio.ferrite_loss(1000) == level(17.7)
    assert radio.ferrite_turns(170, 3) / 170 == 9


def test_noise_of_150_ohm():
    """[microphone-preamp-noise-notes] print -130.82 dBu, 0.22 uV and -133 dBV for 20 kHz at 27 degrees."""
    volts = hearing.thermal_noise(150, 300.15, 20e3)
    assert volts == near(0.22e-6, 0.02)
    assert db(volts / DBU) == level(-130.82, 0.02)
    assert db(volts) == level(-133.0)


def test_gain_a_talker_needs():
    """[installation-manual-p211] prints 70, 64 and 40 dB (in half-dB steps) for -50, -44 and -20 dBV/Pa at 72
    dB SPL.
    """
    for sensitivity, printed in ((-50, 70), (-44, 64), (-20, 40)):
        assert hearing.gain_to_line(sensitivity, 72) == level(printed, 0.3)


def test_weighting_at_third_octaves():
    """The table of IEC 61672 [weighting-table]."""
    for hertz, printed in (
        (50.12, -30.2),
        (63.1, -26.2),
        (100, -19.1),
        (158.5, -13.4),
        (199.5, -10.9),
        (251.2, -8.6),
        (398.1, -4.8),
        (1000, 0.0),
    ):
        assert hearing.weighting(hertz) == level(printed, 0.1)


def test_open_case_of_double_insulated_units():
    """[case-voltages-thread] measured 38 to 195 V and 38 to 98 uA; pairing the ends is ours: 1 Mohm or 3.2
    nF, 2 Mohm or 1.6 nF.
    """
    assert 38 / 38e-6 == near(1e6) and 195 / 98e-6 == near(1.99e6)
    assert chassis.capacitor_ohm(3.18e-9, 50) == near(1e6)
    assert chassis.capacitor_ohm(1.60e-9, 50) == near(1.99e6)


# -- derived: held against arithmetic by hand, or a circuit simulator
# ---------------------------------------------------


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
# ------------------------------------------------------------------


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
