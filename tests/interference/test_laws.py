"""Laws that hold whatever the run is: farther, shorter, thicker, more twisted is never louder;
opening a screen is never a cure.
"""

from dataclasses import replace
from random import Random

import pytest

from generator.interference.answer import ONLY_AT_WORST, SAID, answer, total_heard
from generator.interference.numbers import LOUD, QUIET, TYPICAL, numbers
from generator.interference.paths import PATHS, paths, through
from generator.interference.remedies import remedies
from generator.interference.run import Beside, Device, Lead, Run

from .random_runs import random_run

SEED, MANY = 20261128, 60
ROUNDING = 1 + 1e-9


@pytest.fixture(scope="module")
def runs(tables):
    rng = Random(SEED)
    return [random_run(rng, tables) for _ in range(MANY)]


def never_louder(before: Run, after: Run, tables, ends=(QUIET, TYPICAL, LOUD)):
    one, other = total_heard(before, tables), total_heard(after, tables)
    for end in ends:
        assert other[end] <= one[end] * ROUNDING + 1e-30, (end, before, after)


def test_quiet_is_below_typical_is_below_loud(runs, tables):
    for run in runs:
        quiet, typical, loud = total_heard(run, tables)
        assert quiet <= typical * ROUNDING and typical <= loud * ROUNDING, run


def test_farther_is_never_louder(runs, tables):
    for run in runs:
        beside = tuple(replace(one, distance=2 * one.distance) for one in run.beside)
        things = tuple(replace(one, distance=2 * one.distance) for one in run.things)
        never_louder(run, replace(run, beside=beside), tables)
        # a transformer's loop counts with the square of the distance and its field falls with the cube
        never_louder(run, replace(run, things=things), tables)


def test_fewer_amps_are_never_louder(runs, tables):
    for run in runs:
        some = tuple(replace(one, amps=one.amps / 2) for one in run.beside)
        never_louder(run, replace(run, beside=some), tables)


def test_crossing_is_never_louder(runs, tables):
    for run in runs:
        never_louder(
            run, replace(run, beside=tuple(replace(one, lies="crossing") for one in run.beside)), tables
        )


def test_shorter_alongside_is_never_louder(runs, tables):
    for run in runs:
        half = tuple(replace(one, along=(one.along or run.length) / 2) for one in run.beside)
        never_louder(run, replace(run, beside=half), tables)


def test_fewer_turns_are_never_louder(runs, tables):
    for run in runs:
        if run.spare:
            never_louder(run, replace(run, spare=replace(run.spare, turns=run.spare.turns / 2)), tables)
            never_louder(run, replace(run, spare=None), tables)


def test_a_thicker_screen_is_never_louder(runs, tables):
    """The same cable with half the resistance of its screen. More current flows in it, so what
    rests on the current itself is left out.
    """
    for run in runs:
        thick = {
            id: {**row, "return": tuple(ohm / 2 for ohm in row["return"])}
            for id, row in tables.cables.items()
        }
        sound = replace(
            run, source=replace(run.source, contact_one=False), input=replace(run.input, contact_one=False)
        )
        one = total_heard(sound, tables)
        other = total_heard(sound, replace(tables, cables=thick))
        assert other[TYPICAL] <= one[TYPICAL] * ROUNDING, run


def test_more_twist_is_never_louder(runs, tables):
    for run in runs:
        tight = {
            id: {**row, "lay": tuple(lay / 2 for lay in row["lay"])} for id, row in tables.cables.items()
        }
        cords = {id: {**row, "lay": tuple(lay / 2 for lay in row["lay"])} for id, row in tables.mains.items()}
        for other in (replace(tables, cables=tight), replace(tables, mains=cords)):
            assert total_heard(run, other)[TYPICAL] <= total_heard(run, tables)[TYPICAL] * ROUNDING, run


def test_opening_the_screen_is_never_a_gain(runs, tables):
    """What a screen current makes between the cores is not verified, and counts at its worst only:
    nothing is gained on paper by it.
    """
    for run in runs:
        whole = replace(run, leads=tuple(replace(lead, screen="whole") for lead in run.leads))
        for how in ("open at one end", "open at both ends"):
            opened = replace(whole, leads=tuple(replace(lead, screen=how) for lead in whole.leads))
            if not whole.transformer and not whole.source.contact_one and not whole.input.contact_one:
                one, other = total_heard(whole, tables), total_heard(opened, tables)
                assert other[TYPICAL] >= one[TYPICAL] / ROUNDING, run


def test_no_cure_is_forbidden_or_makes_it_worse(runs, tables):
    for run in runs:
        for one in remedies(run, tables):
            for before, after in zip(run.leads, one.of.leads):
                assert after.screen in ("whole", before.screen), one.id
            assert one.of.source.powered in (run.source.powered, "battery"), one.id
            assert one.of.input.powered in (run.input.powered, "battery"), one.id
            assert one.gains[TYPICAL] is None or one.gains[TYPICAL] > -0.5, one.id
            assert "lift" not in one.words.lower(), one.id


def test_cures_come_best_first(runs, tables):
    for run in runs:
        gains = [
            one.gains[TYPICAL] for one in remedies(run, tables) if one.radio is None and one.id != "length"
        ]
        ranked = [float("inf") if gain is None else round(gain, 6) for gain in gains]
        assert ranked == sorted(ranked, reverse=True)


def test_a_cure_for_a_path_that_does_not_dominate_gains_nothing(tables):
    """Two earthed devices, volts between them, and a lamp lead far away: nothing that is done about
    the lamp lead helps.
    """
    run = Run(
        Device("line-unbalanced", "earthed"),
        Device("line-input-unbalanced", "earthed"),
        (Lead("coax-thin", 5.0),),
        sockets="other circuit",
        beside=(Beside("lamp-lead", "lamp", 1.0, 1.0),),
    )
    gains = {one.id: one.gains[TYPICAL] for one in remedies(run, tables)}
    assert gains["away"] == pytest.approx(0, abs=0.05) and gains["cross"] == pytest.approx(0, abs=0.05)
    assert gains["cable"] > 10


def test_what_is_induced_goes_with_the_amps(runs, tables):
    """Volts of the field paths are linear in the current."""
    for run in runs[:50]:
        if not run.beside:
            continue
        lone = replace(run, things=(), spare=None, beside=tuple(replace(one, amps=1.0) for one in run.beside))
        double = replace(lone, beside=tuple(replace(one, amps=2.0) for one in lone.beside))
        quiet = {id: {**row, "alone": (0.0, 0.0, 0.0)} for id, row in tables.mains.items()}
        still = replace(tables, mains=quiet)
        spectra = tables.spectra[f"{run.hertz:.0f}"]
        one, other = (paths(numbers(it, still, TYPICAL), spectra, run.hertz) for it in (lone, double))
        for path in ("induced", "loop"):
            assert {f: pytest.approx(2 * volts) for f, volts in one[path].items()} == other[path]


def test_a_stiff_difference_and_an_endless_impedance(tables):
    """No impedance between the cases puts all of the volts on the screen; an endless one puts none there."""
    run = Run(
        Device("line-unbalanced", "earthed"),
        Device("line-input-unbalanced", "earthed"),
        (Lead("coax-thin", 5.0),),
        sockets="same room",
    )
    n = numbers(run, tables, TYPICAL)
    stiff = replace(n, chassis=replace(n.chassis, ohm=0.0), loop_henry=0.0)
    assert through(stiff, 50.0) == pytest.approx(n.divider)
    assert through(replace(n, chassis=replace(n.chassis, ohm=1e15)), 50.0) < 1e-14


def test_all_of_an_answer_hangs_together(runs, tables):
    for run in runs:
        a = answer(run, tables)
        assert set(a.paths) == set(PATHS)
        assert SAID.index(a.best) <= SAID.index(a.said) <= SAID.index(a.worst), run
        counted = {name: level for name, level in a.paths.items() if name not in ONLY_AT_WORST}
        if a.dominant:
            assert a.paths[a.dominant].weighted[TYPICAL] == max(
                level.weighted[TYPICAL] for level in counted.values()
            )
            squares = sum(level.volts[TYPICAL] ** 2 for level in counted.values()) ** 0.5
            assert a.total.volts[TYPICAL] == pytest.approx(squares)
        assert a.total.volts[LOUD] >= max(level.volts[LOUD] for level in a.paths.values()) / ROUNDING
