"""The record of a box that turns one kind of signal into another, where no lead can."""

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
