"""What the length of a connection does: two runs told in one sentence, a short one and a long one beside a
dimmer, and treble against length for each kind of cable.
"""

from __future__ import annotations

from dataclasses import replace

from .answer import Answer, answer
from .formulas import length
from .formulas.basics import parallel
from .numbers import TYPICAL
from .reach import TOP
from .run import Beside, Run
from .tables import Tables

SHORT, LONG = 3.0, 30.0  # m
DIMMER = Beside("round-feeder", "dimmer-rack", 0.0, 0.1, 10.0)  # ten metres of its feeder, 10 cm away
UNHEARD = ("inaudible", "in the noise", "under the voice")
SAYS = ("you will hear no hum", "you may hear hum", "you will hear hum in the pauses", "hum drowns the sound")
PAIRS, COAXES = ("mic-pair", "star-quad", "foil-pair"), ("coax-heavy", "coax-thin", "instrument-lead")


def of_length(run: Run, metres: float, beside: tuple[Beside, ...] = ()) -> Run:
    """The same with its first lead so long, beside something."""
    return replace(run, leads=(replace(run.leads[0], length=metres), *run.leads[1:]), beside=beside)


def heard(found: Answer) -> int:
    """Which of SAYS an answer comes to; what the loud end of the guesses alone makes heard may be heard."""
    if found.said in UNHEARD:
        return 0 if found.worst in UNHEARD else 1
    return 3 if found.said == "unusable" else 2


def in_a_sentence(run: Run, tables: Tables) -> str:
    """'On 3 m between these two you will hear no hum; on 30 m beside a dimmer you may hear hum.'"""
    near = heard(answer(of_length(run, SHORT), tables))
    far = heard(answer(of_length(run, LONG, (DIMMER,)), tables))
    if near == far:
        return f"Between these two {SAYS[near]}, on {SHORT:g} m as on {LONG:g} m beside a dimmer."
    return f"On {SHORT:g} m between these two {SAYS[near]}; on {LONG:g} m beside a dimmer {SAYS[far]}."


def kinds(run: Run, tables: Tables) -> tuple[str, ...]:
    """The cable of the run, then the other kinds one would take in its place."""
    own = run.leads[0].cable
    built = tables.cables[own]["build"]
    others = PAIRS if built in ("pair", "quad", "open pair") else COAXES
    return (own, *(kind for kind in others if kind != own))[:3]


def treble_at(run: Run, cable: str, metres: float, tables: Tables) -> float:
    """dB left at 20 kHz between the two devices of a run on so much of a cable."""
    ohm = parallel(tables.sources[run.source.device]["ohm"], tables.inputs[run.input.device]["ohm"])
    return length.treble(ohm, tables.cables[cable]["farad"], metres, TOP)


def level(run: Run, tables: Tables) -> float | None:
    """dB of everything that gets in, to the ear, against the noise."""
    return answer(run, tables).total.noise[TYPICAL]
