"""A caution of a port or a lead, and the conditions it may have."""

from __future__ import annotations

from dataclasses import dataclass

WHEN = {  # what must be there for an answer to tell it; the browser decides it, in check/cautions.js
    "phantom": "A device or lead gives phantom, it is not switched off, and not all is safe with it.",
    "meets-phantom": (
        "A device or lead gives phantom and it is not switched off; also where all is safe, which rests on a "
        "rating then."
    ),
    "t-power": "The same as phantom, of T-power.",
    "plug-in-power": "The same as phantom, of plug-in power, whether it has a switch or not.",
    "needs-power": "What sends must be given power: a condenser or electret microphone, an active DI.",
    "full-battery": "Power comes from what can give 15 V and more, as a full camera battery does.",
    "microphone": "What sends is a microphone, or gives its level.",
    "line": "What sends has line level or drives headphones.",
    "data": "No sound is sent: digital audio, clock, timecode, pictures, MIDI, lighting data, contacts.",
    "amplifier": "What sends is an amplifier for loudspeakers.",
    "stereo": "What sends has more than one channel.",
    "balanced": "What sends has a balanced output.",
    "headphones": "What listens is an ear.",
    "mains": (
        "Two devices that are joined can both be on the mains, or on a charger; a splitter joins two of a "
        "kind."
    ),
    "more-leads": "A second lead is in the chain.",
    "not-safe": (
        "The answer, or the setting that was chosen, is not safe: where the circuit itself shows whether it "
        "applies."
    ),
    "another-use": "Never in an answer, as it speaks of what was not asked; on the record's own page.",
}


@dataclass(frozen=True)
class Caution:
    """What to take care of; `when` names the conditions (WHEN), of which one must be there for an answer to
    tell it. None: always."""

    says: str
    when: tuple[str, ...] = ()
