"""How an answer is said: sentences, and numbers with as many figures as they are worth."""

from __future__ import annotations

from math import floor, log10

from .answer import Answer
from .radio import Heard
from .reading import Reading
from .remedies import FEW, Remedy
from .tables import Tables

SENTENCES = {
    "inaudible": "You will not hear it.",
    "in the noise": "It lies just in the noise.",
    "under the voice": "It stays under the voice, and you hear it in no pause.",
    "in pauses": "You hear it in the pauses, {as_what}.",
    "unusable": "You hear it under the words, {as_what}: not usable.",
}
RADIO = {
    "unlikely": "Radio from {name} at {distance} is unlikely to be heard.",
    "test it": "Radio from {name} at {distance} may be heard: test it before the take.",
    "expect it": "Expect to hear {name} at {distance}.",
}
OUT_OF_RANGE = "Rough only: source and input carry some of the screen's current, out of the formula's range."
WHY = {
    "unbalanced": "the run is unbalanced",
    "contact 1": "contact 1 wanders through a device",
    "screen": "the screen is not whole",
    "high gain": "a microphone input has much gain",
    "length": "the length is near an odd quarter wave",
}
_PREFIXES = ((1, ""), (1e-3, "m"), (1e-6, "µ"), (1e-9, "n"), (1e-12, "p"))


def one_figure(value: float, unit: str) -> str:
    """A value with one figure, as it is worth: 30 µV, 0.2 V."""
    if not value:
        return f"0 {unit}"
    rounded = round(value, -floor(log10(abs(value))))
    scale, prefix = next(((s, p) for s, p in _PREFIXES if abs(rounded) >= s * 0.9999), _PREFIXES[-1])
    return f"{rounded / scale:g} {prefix}{unit}"


def decibels(value: float | None) -> str:
    """Whole dB with a true minus sign; nothing to tell where nothing is left."""
    return "all of it" if value is None else f"{value:.0f} dB".replace("-", "−")


def metres(value: float) -> str:
    """5 cm, 1.5 m, 20 m."""
    return f"{value * 100:g} cm" if value < 1 else f"{value:g} m" if value < 1000 else f"{value / 1000:g} km"


def as_what(hertz: float) -> str:
    """What a line sounds like."""
    if 900 <= hertz <= 1100:
        return "as a whine"
    return f"as a hum of {hertz:.0f} Hz" if hertz < 90 else f"as a buzz, most at {hertz:.0f} Hz"


def sentence(answer: Answer, said: str) -> str:
    """The answer in one sentence, for one of its ends."""
    return SENTENCES[said].format(as_what=as_what(answer.loudest))


def headline(answer: Answer) -> str:
    """What happens, and how far it may be off."""
    first, worst = sentence(answer, answer.said), sentence(answer, answer.worst)
    return first if answer.worst == answer.said else f"{first} At worst: {worst[0].lower()}{worst[1:]}"


def of_radio(heard: Heard, tables: Tables) -> str:
    """One transmitter in words."""
    name = tables.transmitters[heard.transmitter]["name"]
    said = RADIO[heard.step].format(name=name, distance=metres(heard.distance))
    why = (
        f" It counts one step more because {' and '.join(WHY[one] for one in heard.why)}."
        if heard.why
        else ""
    )
    clear = (
        f" Beyond {metres(float(f'{heard.clear:.1g}'))} its field is below what ordinary gear is tested with."
    )
    contact = " Nearer than a sixth of its wave no formula holds: keep it off the lead." if heard.near else ""
    return f"{said}{why}{clear}{contact}"


def of_remedy(one: Remedy, tables: Tables) -> str:
    """A cure with what it gains."""
    if one.radio is not None:
        return (
            f"{one.words} {one.radio:.0f} dB of radio, {2 * one.radio:.0f} dB of what is heard; 0 dB of hum."
        )
    if one.id == "length":
        return f"{one.words} {tables.remedies['length']['but']}"
    typical = one.gains[1]
    if typical is not None and abs(typical) < FEW:
        return f"{one.words} 0 dB: it does not touch what is loudest here."
    return f"{one.words} {decibels(typical)}."


def better_cable(found: tuple[Remedy, ...]) -> str:
    """Would a better cable help? With a number."""
    gains = [one.gains[1] for one in found if one.id in ("cable", "quad")]
    if any(gain is None for gain in gains):
        return "A better cable takes all of it."
    most = max((gain for gain in gains if gain is not None), default=0.0)
    return (
        f"A better cable gains {most:.0f} dB." if most >= FEW else "A better cable gains nothing here: 0 dB."
    )


def helps(one: Remedy) -> bool:
    """Does it gain anything?"""
    return for_radio(one) or one.gains[1] is None or one.gains[1] >= FEW


def for_radio(one: Remedy) -> bool:
    """Is it about radio, which has no decibels of its own?"""
    return one.radio is not None or one.id == "length"


def worth_telling(answer: Answer, found: tuple[Remedy, ...]) -> list[Remedy]:
    """What to do. Where no hum is heard even at its worst, nothing is to be done about it."""
    return [one for one in found if helps(one) and (for_radio(one) or answer.worst != "inaudible")]


def of_reading(one: Reading) -> str:
    """What to measure, what to expect, what it is worth."""
    narrows = one.now and one.then and one.then < one.now
    narrow = f" It narrows the answer from {one.now:.0f} dB to {one.then:.0f} dB." if narrows else ""
    expected = f"{one_figure(one.volts, 'V')} and {one_figure(one.amps, 'A')}"
    return f"Measure AC volts and amps between the two cases; some {expected} are expected.{narrow}"
