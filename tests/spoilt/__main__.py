"""python -m tests.spoilt [--count N] [--seed S] [--first N]: spoils the real catalogue N times, one file at a
time, and lints what comes of it.

Each must end in faults that say where they are, or in none and in records that can be built; with no
exception, in TIME, in MEMORY, and with the plain fault of another file told as well. Number and seed make a
mutant again: `--first 1234 --count 1`.
"""

from __future__ import annotations

import argparse
import resource
import signal
import sys
import tempfile
import traceback
from collections import Counter
from contextlib import contextmanager, suppress
from pathlib import Path
from random import Random

from . import text, tree
from .complaints import complaints
from .held import MADE, Held, Mutant

TIME, MEMORY = 5.0, 300  # s of the processor for one, MB for all
KINDS = {  # how many of a hundred
    "ports": 22,
    "leads": 22,
    "circuits": 22,
    "connectors": 12,
    "assignments": 8,
    "cables": 4,
    "own": 4,
    "questions": 2,
    "retired": 2,
    "sources": 1,
    "published": 1,
}
OWN = (  # a device, a lead and a port of their own
    (
        "name: My recorder\n"
        "same_as: {port}\n"
        "circuit:\n"
        "  {instance}: {{}}\n"
        "evidence: your manual\n"
        "checked: 2026-11-25\n"
    ),
    "name: My lead\nsame_as: {lead}\nlength: 2 m\n",
)
# the catalogue's own has no entry yet
RETIRED = "moved: {{gone-long-ago: {port}, gone-too: {lead}}}\nsplit: {{gone-apart: [{port}, {lead}]}}\n"


class TooLong(Exception):
    """One mutant took more than TIME."""


class Spoiler:
    """Makes mutant after mutant of the catalogue's files."""

    def __init__(self, held: Held, seed: int):
        self.held, self.seed = held, seed
        self.files = {kind: sorted(id for k, id in held.texts if k == kind) for kind in KINDS}
        roots = {
            record: tree.composed(whole) for record, whole in held.texts.items() if record[0] != "published"
        }
        self.nodes = tuple(node for record in sorted(roots) for node in tree.every(roots[record]))
        self.keys = tuple(sorted(set().union(*map(tree.keys, roots.values()))))
        self.ids = tuple(
            sorted(
                {id for _, id in held.texts}.union(
                    held.raw["sources"]["sources"].keys, held.raw["questions"]["questions"].keys
                )
            )
        )

    def mutant(self, number: int) -> Mutant:
        chance = Random(f"{self.seed}.{number}")
        kind = chance.choices(tuple(KINDS), tuple(KINDS.values()))[0]
        id, whole = self._file(kind, chance)
        if chance.random() < 0.005:
            return Mutant(kind, id, b"", ("made",), chance.choice(tuple(MADE)))
        found, how = whole, []
        if kind != "published" and chance.random() < 0.6:
            found, how = tree.spoilt(whole, tree.Pool(id, self.nodes, self.keys, self.ids), chance)
        if not how or chance.random() < 0.1:
            content, more = text.spoilt(found, chance) if found else (b"", [])
            return Mutant(kind, id, content, (*how, *more))
        return Mutant(kind, id, found.encode("utf-8", "surrogatepass"), tuple(how))

    def _file(self, kind: str, chance: Random) -> tuple[str, str]:
        port, lead = chance.choice(self.files["ports"]), chance.choice(self.files["leads"])
        if kind == "retired":
            return kind, RETIRED.format(port=port, lead=lead)
        if kind != "own":
            id = chance.choice(self.files[kind])
            return id, self.held.texts[kind, id]
        if chance.random() < 0.5:
            return "my-device", self.held.texts[chance.choice((("ports", port), ("leads", lead)))]
        circuit = self.held.raw["ports"][port].entries.get("circuit")
        return "my-device", chance.choice(OWN).format(
            port=port, lead=lead, instance=next(iter(circuit.entries)) if circuit else "main"
        )


def tried(held: Held, mutant: Mutant, whole: bool = False) -> tuple[bool, list[str]]:
    """Did it come out clean, and what is wrong with how it was taken? `whole`: it must say the same
    within the whole catalogue."""
    try:
        with _limited(TIME):
            found = held.faults(mutant)
        wrong = complaints(mutant, found)
    except Exception as fault:
        where = traceback.extract_tb(fault.__traceback__)[-1]
        return False, [
            f"{type(fault).__name__}: {str(fault)[:200]} at {Path(where.filename).name}:{where.lineno}"
        ]
    if whole:
        wrong += _differing(held, mutant)
    return len(found) == 1, wrong


def _differing(held: Held, mutant: Mutant) -> list[str]:
    try:
        apart, together = set(held.faults(mutant, wanting=None)), set(held.whole(mutant))
    except Exception as fault:
        return [f"in the whole catalogue {type(fault).__name__}: {str(fault)[:200]}"]
    return [
        f"{'only apart' if fault in apart else 'only in the whole catalogue'}: {str(fault)[:300]}"
        for fault in apart ^ together
    ]


@contextmanager
def _limited(seconds: float):
    def stop(*_):
        raise TooLong(f"more than {seconds:g} s")

    before = signal.signal(signal.SIGVTALRM, stop)
    signal.setitimer(signal.ITIMER_VIRTUAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)


def peak() -> int:
    """The most memory this process has had, MB."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024


def run(count: int, seed: int = 0, first: int = 0, every: int = 1000, say=print) -> Counter:
    """Tries them, says what is wrong and counts: mutants, clean ones, wrong ones; every so many is held
    against the whole catalogue."""
    ends: Counter[str] = Counter()
    seen = set()
    with tempfile.TemporaryDirectory() as folder:
        held = Held(Path(folder).resolve())
        spoiler = Spoiler(held, seed)
        with suppress(KeyboardInterrupt):  # what has been tried is told all the same
            for number in range(first, first + count):
                mutant = spoiler.mutant(number)
                clean, wrong = tried(held, mutant, whole=number % every == 0)
                if number % 50 == 0 and peak() > MEMORY:
                    wrong.append(f"one of the last fifty took the memory to {peak()} MB")
                ends["tried"] += 1
                ends["clean"] += clean
                ends["wrong"] += bool(wrong)
                seen.add((mutant.kind, mutant.id))
                for one in wrong[:3]:
                    say(f"{number} {mutant.name} ({', '.join(mutant.how)} {mutant.made}): {one}")
                if ends["tried"] % 10_000 == 0:
                    say(f"{ends['tried']} tried, {ends['clean']} clean, {ends['wrong']} wrong, {peak()} MB")
        ends["files"] = len(seen & set(held.texts))
    return ends


def main() -> int:
    parser = argparse.ArgumentParser(
        prog="python -m tests.spoilt", description="Does lint take whatever it is given?"
    )
    parser.add_argument("--count", type=int, default=1000, metavar="N", help="how many mutants")
    parser.add_argument("--seed", type=int, default=0, metavar="S")
    parser.add_argument("--first", type=int, default=0, metavar="N", help="the number of the first")
    parser.add_argument(
        "--every",
        type=int,
        default=1000,
        metavar="N",
        help="every so many is linted within the whole catalogue too",
    )
    options = parser.parse_args()
    ends = run(
        options.count, options.seed, options.first, options.every, lambda line: print(line, flush=True)
    )
    cpu = resource.getrusage(resource.RUSAGE_SELF)
    print(
        f"{ends['tried']} mutants of {ends['files']} files: {ends['clean']} still right, {ends['wrong']} "
        f"taken badly; {ends['tried'] / (cpu.ru_utime + cpu.ru_stime):.0f} a second of the processor, "
        f"{peak()} MB at most."
    )
    return 1 if ends["wrong"] else 0


if __name__ == "__main__":
    sys.exit(main())
