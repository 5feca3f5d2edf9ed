"""What questions are made of: the catalogue, the rows of the ledger, what faults sound like, and the
tables beside this file."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from generator.catalogue.records import GRADES, Catalogue, Evidence
from generator.engine.rulebook import rules
from generator.ledger.rows import Row

from .tables import table

NO_LEAD = "-"


@dataclass(frozen=True)
class Facts:
    """`symptoms` is lead -> symptom -> fault ids, the commonest first, as the workshop keeps it."""

    catalogue: Catalogue
    rows: Sequence[Row]
    symptoms: Mapping[str, Mapping[str, Sequence[str]]]
    _kept: dict[str, Any] = field(default_factory=dict, compare=False, repr=False)

    def once(self, name: str, make: Callable[[], Any]) -> Any:
        """What `make` gives, made once under a name."""
        if name not in self._kept:
            self._kept[name] = make()
        return self._kept[name]

    @cached_property
    def everyday(self) -> frozenset[str]:
        """Ids of the ports a beginner meets in the first week."""
        return frozenset(id for id in table("common")["everyday"] if id in self.catalogue.ports)

    @cached_property
    def by_subject(self) -> Mapping[str, Row]:
        """`FROM,LEAD,INTO` -> row; `-` for no lead."""
        return {subject(row): row for row in self.rows}

    @cached_property
    def by_pair(self) -> Mapping[tuple[str, str], list[Row]]:
        """(outlet, inlet) -> its rows."""
        return _grouped(self.sensible, lambda row: (row["from"], row["into"]))

    @cached_property
    def by_start(self) -> Mapping[tuple[str, str], list[Row]]:
        """(outlet, lead) -> its rows."""
        return _grouped(self.sensible, lambda row: (row["from"], "+".join(row["through"]) or NO_LEAD))

    @cached_property
    def sensible(self) -> list[Row]:
        """The rows a person might come to: what is sent and what is listened to have a kind of signal in
        common, or both are sound."""
        sends = {id: {source.kind for source in port.sources} for id, port in self.catalogue.ports.items()}
        hears = {id: {one.kind for one in port.listeners} for id, port in self.catalogue.ports.items()}
        sound = {"microphone", "line", "instrument", "headphone"}
        alike = lambda row: (
            sends[row["from"]] & hears[row["into"]]
            or (sends[row["from"]] & sound and hears[row["into"]] & sound)
        )
        return [row for row in self.rows if alike(row)]

    @cached_property
    def plain(self) -> Mapping[str, list[Row]]:
        """Verdict -> sensible rows that have it, without those that hang on the order of plugging."""
        return _grouped((row for row in self.sensible if not row["offered"]), lambda row: row["verdict"])

    def known(self, row: Row) -> bool:
        """Are both devices everyday ones?"""
        return row["from"] in self.everyday and row["into"] in self.everyday

    def lead(self, through: Sequence[str]) -> str:
        """The leads in words."""
        named = ", then ".join(self.catalogue.leads[id].name for id in through)
        return named or "No lead: plugged straight in"

    def given(self, row: Row) -> tuple[tuple[str, str], ...]:
        """A connection as labelled facts."""
        ports = self.catalogue.ports
        return (
            ("From", ports[row["from"]].name),
            ("Through", self.lead(row["through"])),
            ("Into", ports[row["into"]].name),
        )

    def pictures(self, row: Row) -> tuple[str, ...]:
        """The drawings of a connection: its leads, or where it has none the outlet's contacts."""
        return tuple(f"lead-{id}" for id in row["through"]) or (f"port-{row['from']}",)

    def grade(self, row: Row, *findings: str, ratings: bool = True) -> tuple[str, str]:
        """The weakest grade a row rests on, and a note where that is memory. Verdicts are always derived;
        `ratings`: does what the parts are rated for matter to what is asked?"""
        ports, memory = self.catalogue.ports, []
        for id in (row["from"], row["into"]):
            if ports[id].evidence.grade == GRADES[-1]:
                memory.append(f"what is behind “{ports[id].name}”")
            elif ratings and any(limit.evidence.grade == GRADES[-1] for limit in ports[id].network.limits):
                memory.append(f"ratings of parts in “{ports[id].name}”")
        memory += [
            f"how “{self.catalogue.leads[id].name}” is wired"
            for id in row["through"]
            if self.catalogue.leads[id].evidence.grade == GRADES[-1]
        ]
        if any(rule.id in findings and rule.evidence == GRADES[-1] for rule in rules()):
            memory.append("the threshold held against")
        if not memory:
            return "derived", ""
        return GRADES[
            -1
        ], f"Worked out from the circuit. From memory, and to be checked: {'; '.join(dict.fromkeys(memory))}."


def subject(row: Row) -> str:
    """A row as the subject of a question."""
    return ",".join((row["from"], "+".join(row["through"]) or NO_LEAD, row["into"]))


def check(row: Row) -> str:
    """The address of the working, from the site's root."""
    return f"check/#from={row['from']}&through={','.join(row['through'])}&into={row['into']}"


def remembered(evidence: Evidence, what: str) -> tuple[str, str]:
    """Grade and note of one fact."""
    return (
        evidence.grade,
        f"{what} is from memory; look it up before you rely on it." if evidence.grade == GRADES[-1] else "",
    )


def _grouped(rows, key) -> dict[Any, list[Row]]:
    found: dict[Any, list[Row]] = defaultdict(list)
    for row in rows:
        found[key(row)].append(row)
    return dict(found)
