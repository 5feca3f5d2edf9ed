"""A port as its contacts show it, for joining with leads by the thousand (reduced.py)."""

from __future__ import annotations

import numpy as np

from generator.catalogue.records import Catalogue, Limit, Port

from .reduced import TIE, reduced
from .steps import AT, Half

Meter = tuple[str, str] | str


class Socket:
    """A port, worked out once. Its drives are its sources, a probe at the output of each, all its
    supplies switched on, and what draws current drawing its fill."""

    def __init__(self, catalogue: Catalogue, port: Port) -> None:
        self.port = port
        self.half: Half = (port.connector, port.half)
        network = port.network
        nodes = [
            port.contacts.get(contact, f"open.{contact}")
            for contact in catalogue.connectors[port.connector].contacts
        ]
        grounded = any("chassis" in (part.a, part.b) for part in network.parts)
        kept = list(dict.fromkeys((*nodes, *(["chassis"] if grounded else []))))
        self.size, self.chassis = len(kept), kept.index("chassis") if grounded else None
        self.at = [kept.index(node) for node in nodes]  # of each contact
        self.across = {part.id: (part.a, part.b) for part in network.parts}
        self.supplies = {
            part.id: part.value.nominal for part in network.parts if part.kind == "emf" and part.value.nominal
        }
        emfs = {part.id for part in network.parts if part.kind == "emf"}
        self.stages = {one.id: [id for id in one.drive if id in emfs] for one in port.sources}
        self.coils = [part.id for part in network.parts if part.coil]
        self.clamps = [part for part in network.parts if part.kind == "clamp"]
        self.sinks = [part for part in network.parts if part.kind == "sink"]
        meters: list[Meter] = [
            *(one.between for one in (*port.listeners, *port.needs)),
            *(one.output for one in port.sources),
            *(id for ids in self.stages.values() for id in ids),
            *self.coils,
            *self.supplies,
            *(self.across[part.id] for part in (*self.clamps, *self.sinks)),
            *(self.meter(one) for one in network.limits),
        ]
        self._number = {meter: number for number, meter in enumerate(dict.fromkeys(meters))}
        self.drives = [
            *(one.drive for one in port.sources),
            *({one.output: -1.0} for one in port.sources),
            self.supplies,
            {part.id: part.value.nominal for part in self.sinks},
        ]
        self.sees = reduced(network.parts, network.couplings, kept, AT, self.drives, list(self._number))

    def meter(self, limit: Limit) -> Meter:
        """Where a limit is read."""
        if limit.between:
            return limit.between
        return limit.part if limit.quantity == "amps" else self.across[limit.part]

    def shown(self, at: int, meter: Meter) -> tuple[np.ndarray, np.ndarray]:
        """What a meter shows of the volts at the kept nodes, and of the drives themselves."""
        number = self._number[meter]
        return self.sees.shown[at, number], self.sees.own[at, number]

    def alone(self, at: int, meter: Meter, drive: int) -> complex:
        """What it shows of a drive with nothing plugged in."""
        matrix = self.sees.admittance[at] + TIE * np.eye(self.size)
        volts, own = self.shown(at, meter)
        return volts @ np.linalg.solve(matrix, self.sees.pushed[at, drive]) + own[drive]
