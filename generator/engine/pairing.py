"""Which source should reach which listener, one device on either side or several of a kind."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from generator.catalogue.records import Listener, Source

from .assembly import Assembly
from .kinds import AUDIO, TIMECODE, as_sound, one_family


@dataclass(frozen=True, eq=False)
class Output:
    """A source and the place it is at."""

    place: str
    source: Source

    @property
    def name(self) -> str:
        return f"{self.place}/{self.source.id}"


@dataclass(frozen=True, eq=False)
class Input:
    """A listener and the place it is at."""

    place: str
    listener: Listener

    @property
    def name(self) -> str:
        return f"{self.place}/{self.listener.id}"

    @property
    def nodes(self) -> tuple[str, str]:
        """What it hears between."""
        return tuple(f"{self.place}/{node}" for node in self.listener.between)


def outputs(assembly: Assembly, side: str) -> list[Output]:
    """Every source on one side of the question."""
    return [
        Output(place, source) for place in assembly.group(side) for source in assembly.places[place].sources
    ]


def inputs(assembly: Assembly, side: str) -> list[Input]:
    """Every listener on one side of the question."""
    return [
        Input(place, listener)
        for place in assembly.group(side)
        for listener in assembly.places[place].listeners
    ]


def asked(sent: Sequence[Output], heard: Sequence[Input]) -> list[tuple[Output, Input]]:
    """What is asked about in one direction: the same channel where both sides have it, else everything a
    source meets; or every pair where nothing belongs together."""
    channels, wanted = {o.source.channel for o in sent}, {i.listener.channel for i in heard}
    pairs = [
        (o, i)
        for o in sent
        for i in heard
        if matched(o, i) or (o.source.channel not in wanted and i.listener.channel not in channels)
    ]
    return pairs or [(o, i) for o in sent for i in heard]


def spilled(
    pairs: Sequence[tuple[Output, Input]], arrives: Callable[[Output, Input], bool]
) -> list[tuple[Output, Input]]:
    """Of these pairs the sound that meets an input kept for timecode, where another hears sound: nobody asked
    for it there. What may be a track of timecode played back is asked for, unless it is heard itself."""
    heard = {
        o for o, i in pairs if o.source.kind in AUDIO and one_family(o.source, i.listener) and arrives(o, i)
    }
    return [
        (o, i)
        for o, i in pairs
        if o.source.kind in AUDIO
        and i.listener.kind == TIMECODE
        and (o in heard or (heard and not as_sound(o.source, i.listener)))
    ]


def matched(output: Output, input: Input) -> bool:
    """Are both the same channel?"""
    return output.source.channel == input.listener.channel


def comparable(sent: Sequence[Output], heard: Sequence[Input]) -> list[tuple[Output, Input]]:
    """All pairs of one kind of signal: channels that have changed places are heard, if on the wrong
    side; the sound on a picture's input is not. Timecode counts as sound where neither of the two has a
    partner of its own kind."""
    own = [(o, i) for o in sent for i in heard if one_family(o.source, i.listener)]
    met = {each for pair in own for each in pair}
    return [
        (o, i)
        for o in sent
        for i in heard
        if (o, i) in own or (as_sound(o.source, i.listener) and not {o, i} & met)
    ]
