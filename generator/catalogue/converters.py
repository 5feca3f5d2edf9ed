"""The records of a box that turns one kind of signal into another, where no lead can, and of what feeds a
microphone that goes into one."""

from __future__ import annotations

from dataclasses import dataclass

from .evidence import Evidence


@dataclass(frozen=True)
class Converter:
    """A class of box. It takes what a port of `enters` hears and gives what a port of `leaves` sends, that
    way round only. One that is made for certain devices names them under `only_from` and `only_to`."""

    id: str
    name: str
    enters: tuple[str, ...]
    leaves: tuple[str, ...]
    only_from: tuple[str, ...]
    only_to: tuple[str, ...]
    does: str
    power: str
    look_at: tuple[str, ...]
    evidence: Evidence


@dataclass(frozen=True)
class Feeding:
    """How a microphone gets the power it is made for, where phantom of 48 V straight from an input is not for
    it: `through` leads, in order, `into` any of these inputs."""

    id: str
    outlets: tuple[str, ...]
    through: tuple[str, ...]
    into: tuple[str, ...]
    evidence: Evidence
