"""What a verdict rests on, as a short digest: the records involved, the rules, the engine itself. Equal digest, equal verdict."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from generator.catalogue.records import Catalogue, Lead
from generator.engine import __file__ as engine_file

Pairing = tuple[str, tuple[str, ...], str]


class Fingerprints:
    """Digests of the pairings of one catalogue."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self.known: dict[tuple[str, str], bytes] = {}

    def of(self, pairing: Pairing) -> str:
        """The digest of everything that can change the verdict of this pairing."""
        whole = hashlib.sha256(engine_digest())
        for kind, name in self._records(pairing):
            whole.update(self._record(kind, name))
        return whole.hexdigest()[:24]

    def _records(self, pairing: Pairing) -> Iterator[tuple[str, str]]:
        start, through, target = pairing
        ports, connectors = [start, target], set()
        for name in through:
            yield "leads", name
            lead: Lead = self.catalogue.leads[name]
            ports += [end.usual for end in lead.ends.values() if end.usual]
            connectors |= {end.connector for end in lead.ends.values()}
        for name in ports:
            yield "ports", name
            connectors.add(self.catalogue.ports[name].connector)
        yield from (("connectors", name) for name in sorted(connectors))

    def _record(self, kind: str, name: str) -> bytes:
        if (kind, name) not in self.known:
            self.known[kind, name] = hashlib.sha256(repr(getattr(self.catalogue, kind)[name]).encode()).digest()
        return self.known[kind, name]


@cache
def engine_digest() -> bytes:
    """A digest of the engine's code and rules."""
    whole = hashlib.sha256()
    for path in sorted(Path(engine_file).parent.glob("*.*")):
        if path.suffix in (".py", ".yaml"):
            whole.update(path.read_bytes())
    return whole.digest()
