"""Kinds of signal, and which of them an input takes for its own."""

from __future__ import annotations

from generator.catalogue.records import Listener, Port, Source

AUDIO = ("microphone", "line", "instrument", "headphone", "loudspeaker")
SMALL = ("microphone", "line", "instrument")  # small enough for fields around the lead to matter
FAST = ("digital", "data", "video", "clock")
ONE_SIDED = ("midi", "power")  # kinds whose screen, if any, is tied at the sender only
DIGITAL, LOUDSPEAKER, PHONES = "digital", "loudspeaker", "headphone"
AMPLIFIED = (PHONES, LOUDSPEAKER)
CONTACT = "contact"  # a switch: made to be fed by what it closes
TIMECODE = "timecode"
BITS = ("data", "midi")  # not understood upside down
UNTURNED = (DIGITAL, "power", CONTACT)  # coded so that it does not matter, or told by what it does
UNHUMMED = (DIGITAL, "data", "clock", TIMECODE, *ONE_SIDED, CONTACT)  # read or fed, not listened to
TRACKS = ("line", "microphone")  # inputs of a sound track, which can hold timecode as sound


def same_kind(source: Source, listener: Listener) -> bool:
    """Does this input hear what this output sends?"""
    return one_family(source, listener) or as_sound(source, listener)


def something_to_hear(one: Port, other: Port) -> bool:
    """Does either send a kind that the other hears? Where not, no lead can help."""
    return any(
        same_kind(source, listener)
        for a, b in ((one, other), (other, one))
        for source in a.sources
        for listener in b.listeners
    )


def one_family(source: Source, listener: Listener) -> bool:
    """Are both sound, or else of the very same kind, and of a form that is understood?"""
    return _family(source.kind) == _family(listener.kind) and source.form in (listener.forms or ("",))


def said(source: Source) -> str:
    """What it sends, in words: its form, or its kind where that tells all."""
    return source.form or source.kind


def expected(listener: Listener) -> str:
    """What it expects, in words."""
    return " or ".join(listener.forms) or listener.kind


def as_sound(source: Source, listener: Listener) -> bool:
    """Timecode is a sound: it goes onto a sound track and comes back from one. No microphone sends it."""
    onto = source.kind == TIMECODE and listener.kind in TRACKS
    return onto or (source.kind == "line" and listener.kind == TIMECODE)


def _family(kind: str) -> str:
    return "audio" if kind in AUDIO else kind
