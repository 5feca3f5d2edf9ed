"""The ways between every outlet and every inlet that hears it, kept as text with the ledger: searched once,
and again only where something can have changed.

    LEADS  INLET  VERDICT  FINDINGS  NUMBER  SUBJECT  OFFERED  OFFER

as in the ledger's own files, leads joined by `+`; of each inlet the best first. A pair without a line has no
way. What a pair's ways rest on are its ports, and all leads there are: where a lead is another or new, every
pair is asked for what goes through it, and those that had it among their ways are searched from nothing.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import lru_cache
from itertools import groupby
from pathlib import Path
from typing import NamedTuple

from generator.catalogue.records import Catalogue, Port
from generator.engine.constants import OFFERED
from generator.engine.judge import judge
from generator.engine.kinds import same_kind
from generator.engine.route import Search, cost, settled

from . import rests
from .fingerprint import Fingerprints, search_digest
from .lines import HEAD, LedgerError, first_difference, line, read
from .lines import rows as rows_of
from .progress import told
from .rests import ENGINE, FILE, RESTS_ON, Record
from .rows import Row, row
from .workers import processes

FOLDER, WRITES = "ways", "python -m generator ledger --ways"
SHARE = 24  # pairs a process takes at once, of an outlet's half if it can be
FEW = 4  # below this starting more processes costs more than it saves

Pair = tuple[str, str]
Ways = Mapping[Pair, Sequence[Row]]


class Task(NamedTuple):
    """A pair to be searched; where `among` has leads, for what goes through one of them, beside the ways that
    are `known`."""

    pair: Pair
    among: frozenset[str] = frozenset()
    known: tuple[tuple[str, ...], ...] = ()


def hearable(catalogue: Catalogue) -> list[Pair]:
    """Every outlet and inlet where one sends what the other hears, ports of one half together."""
    halves = lambda pair: [(catalogue.ports[name].connector, catalogue.ports[name].half) for name in pair]
    ports = catalogue.ports.values()
    return sorted(
        ((one.id, two.id) for one in ports for two in ports if one is not two and _hears(one, two)),
        key=lambda pair: (halves(pair), pair),
    )


def _hears(one: Port, two: Port) -> bool:
    return any(same_kind(source, listener) for source in one.sources for listener in two.listeners)


def ways(catalogue: Catalogue, directory: Path, begun: Path | None = None, mend: bool = False) -> Ways:
    """The ways of every pair that is searched: from the files in `directory` where they still hold, else by
    search. What a search finds is noted in the file `begun`, so that one that was stopped goes on.

    LedgerError where a file is not as it was written; with `mend` such a file is as if it were not there.
    """
    files, rested = read(directory), rests.read(directory / RESTS_ON, mend)
    whole = {name: text for name, text in files.items() if rested.get((FILE, name)) == rests.digest(text)}
    if not mend:
        _check(files, whole, rested)
    rows: dict[Pair, list[Row]] = {}
    for one in rows_of(whole):
        rows.setdefault((one["from"], one["into"]), []).append(one)
    held, every = {name.removesuffix(".txt") for name in whole}, hearable(catalogue)
    tasks = list(_tasks(catalogue, rows, held, rested, every))
    found = {pair: rows.get(pair, []) for pair in every}
    with _noted(begun, catalogue, rested) as (noted, note):
        left = [task for task in tasks if task.pair not in noted]
        for task, made in zip(left, told(_all(catalogue, left), len(left), "pairs searched")):
            note(task.pair, made)
        return {**found, **{task.pair: noted[task.pair] for task in tasks}}


def known(catalogue: Catalogue, directory: Path, pair: Pair) -> list[tuple[str, ...]] | None:
    """The ways of one pair by their leads, best first; None where the files do not hold for it."""
    name = f"{pair[0]}.txt"
    path, rested = directory / name, rests.read(directory / RESTS_ON, mend=True)
    if pair not in hearable(catalogue) or not path.exists():
        return None
    content = path.read_text(encoding="utf-8", errors="replace")
    if rested.get((FILE, name)) != rests.digest(content) or any(
        _tasks(catalogue, {}, {pair[0]}, rested, [pair])
    ):
        return None
    return [tuple(row["through"]) for row in rows_of({name: content}) if row["into"] == pair[1]]


def keep(catalogue: Catalogue, found: Ways, directory: Path) -> None:
    """Write the ways and what they rest on."""
    directory.mkdir(parents=True, exist_ok=True)
    files = text(catalogue, found)
    for path in directory.glob("*.txt"):
        if path.name not in files:
            path.unlink()
    for name, content in {**files, RESTS_ON: _rests_on(catalogue, files)}.items():
        path = directory / name
        if not path.exists() or path.read_bytes() != content.encode():
            path.write_text(content, encoding="utf-8")


def stale(catalogue: Catalogue, found: Ways, directory: Path) -> Iterator[LedgerError]:
    """Each file that is not what `keep` would write, with the first line that differs."""
    files = text(catalogue, found)
    there, wanted = read(directory), {**files, RESTS_ON: _rests_on(catalogue, files)}
    if (directory / RESTS_ON).exists():
        there[RESTS_ON] = (directory / RESTS_ON).read_text(encoding="utf-8", errors="replace")
    for name in sorted(there.keys() | wanted.keys()):
        if there.get(name) != wanted.get(name):
            number = first_difference(there.get(name, ""), wanted.get(name, ""))
            yield _fault(f"{name}, line {number}: not what a search finds today")


def text(catalogue: Catalogue, found: Ways) -> dict[str, str]:
    """File name -> content, one file for every outlet that is heard by anything."""
    files: dict[str, str] = {}
    for pair in sorted(hearable(catalogue)):
        name = f"{pair[0]}.txt"
        files[name] = files.get(name, HEAD) + "".join(map(line, found.get(pair, ())))
    return files


def _rests_on(catalogue: Catalogue, files: Mapping[str, str]) -> str:
    return rests.text(_today(catalogue), files)


def _today(catalogue: Catalogue) -> dict[Record, str]:
    prints = Fingerprints(catalogue, words=False)
    return {ENGINE: prints.engine(), ("engine", "search"): search_digest(), **prints.every()}


def _check(files: Mapping[str, str], whole: Collection[str], rested: Mapping[Record, str]) -> None:
    """LedgerError where the files and what they rest on do not belong together."""
    for name in sorted({name for kind, name in rested if kind == FILE} | set(files)):
        if name not in files:
            raise _fault(f"{name}: missing")
        if name not in whole:
            try:
                list(rows_of({name: files[name]}))  # a line that is none is named before all else
            except LedgerError as fault:
                raise _fault(fault.what) from None
            raise _fault(f"{name}: not as it was written, edited by hand or from another version")


def _fault(what: str) -> LedgerError:
    return LedgerError(f"{FOLDER}/{what}", WRITES)


def _tasks(
    catalogue: Catalogue,
    known: Ways,
    held: Collection[str],
    rested: Mapping[Record, str],
    every: Iterable[Pair],
) -> Iterator[Task]:
    """What is to be searched of these pairs. `held` are the outlets whose file is whole."""
    today = _today(catalogue)
    other = {record for record in today.keys() | rested.keys() if rested.get(record) != today.get(record)}
    names = lambda wanted: {name for kind, name in other if kind == wanted}
    connectors, leads, ports = names("connectors"), names("leads"), names("ports")
    ports |= {port.id for port in catalogue.ports.values() if port.connector in connectors}
    leads |= {
        lead.id
        for lead in catalogue.leads.values()
        if any(end.usual in ports or end.connector in connectors for end in lead.ends.values())
    }
    among = frozenset(leads & catalogue.leads.keys())
    for pair in every:
        rows = known.get(pair, ())
        through = tuple(tuple(one["through"]) for one in rows)
        if (
            names("engine")
            or pair[0] not in held
            or ports & set(pair)
            or any(leads & set(one) for one in through)
        ):
            yield Task(pair)
        elif among:
            yield Task(pair, among, through)


def _all(catalogue: Catalogue, tasks: Sequence[Task]) -> Iterator[list[Row]]:
    if len(tasks) < FEW:
        yield from share(catalogue, None, tasks)
        return
    half = lambda task: (catalogue.ports[task.pair[0]].connector, catalogue.ports[task.pair[0]].half)
    shares = [
        some[at : at + SHARE]
        for some in (list(group) for _, group in groupby(tasks, half))
        for at in range(0, len(some), SHARE)
    ]
    with processes(share, catalogue, None) as mapped:
        for made in mapped(shares):
            yield from made


def share(catalogue: Catalogue, _: Path | None, tasks: Iterable[Task]) -> list[list[Row]]:
    """What another process does at once."""
    return [[row(verdict.as_data()) for verdict in _searched(catalogue, task)] for task in tasks]


def _searched(catalogue: Catalogue, task: Task) -> list:
    """The ways of a pair. Where those among some leads are better than what is known, they take their place;
    where one of them is safe and shorter, what was not offered before may be now, and all is searched."""
    if task.among:
        known = [judge(catalogue, task.pair[0], through, task.pair[1]) for through in task.known]
        fresh = _search(catalogue, task.among).routes(*task.pair, known=known)
        every = sorted((*known, *fresh), key=lambda verdict: cost(catalogue, verdict))
        kept = settled(every)
        if len(kept) == len(every) or len(kept) >= OFFERED:
            return kept[:OFFERED]
    return _search(catalogue, frozenset()).routes(*task.pair)


@lru_cache(maxsize=2)
def _search_of(number: int, among: frozenset[str]) -> list[Search]:
    return []


def _search(catalogue: Catalogue, among: frozenset[str]) -> Search:
    """One for all that a process is asked of a catalogue."""
    made = _search_of(id(catalogue), among)
    if not made or made[0].catalogue is not catalogue:
        made[:] = [Search(catalogue, among=among)]
    return made[0]


@contextmanager
def _noted(begun: Path | None, catalogue: Catalogue, rested: Mapping[Record, str]):
    """What an earlier run for the same question found, and what notes more of it."""
    question = rests.digest(repr((sorted(_today(catalogue).items()), sorted(rested.items()))))
    found: dict[Pair, list[Row]] = {}
    lines = begun.read_text(encoding="utf-8").splitlines() if begun and begun.exists() else []
    for each in lines if lines[:1] == [question] else []:
        try:
            start, target, made = json.loads(each)
            found[start, target] = made
        except ValueError:  # the first line, or one cut short
            continue
    if not begun:
        yield found, found.__setitem__
        return
    begun.parent.mkdir(parents=True, exist_ok=True)
    with begun.open("a" if found else "w", encoding="utf-8") as file:
        file.write("\n" if found else f"{question}\n")

        def note(pair: Pair, made: list[Row]) -> None:
            found[pair] = made
            file.write(json.dumps([*pair, made]) + "\n")
            file.flush()

        yield found, note
