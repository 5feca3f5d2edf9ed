"""The command line: lint, judge, route, matrix, draw, docs, bundle, list, ledger, interfere,
lessons, and the workshop."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from dataclasses import replace
from difflib import get_close_matches
from pathlib import Path

from generator import ledger, publishing, stopped, terminal
from generator.catalogue import Catalogue, CatalogueError, ever, load
from generator.catalogue.lint import lint
from generator.converting import beyond, sends_light
from generator.engine import Verdict, judge, routes
from generator.engine.explain import explain
from generator.engine.route import remedies
from generator.engine.told import told
from generator.engine.working import Working
from generator.ledger.changes import changelog
from generator.ledger.revision import NoRevision, at_revision
from generator.lessons import NoQuestion
from generator.options import KINDS, parser
from generator.own import numbers
from generator.workshop.safety import Misuse

BROKEN, BAD_USE = 1, 2
# what was read of every connection, used where nothing it is made of has changed
REMEMBERED = Path("build/readings.sqlite")
SOME = 5  # files of a stale ledger that are named


class BadUse(Exception):
    """The command was asked for something that is not there; the message says what is near."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns the exit status: 0, 1 for a broken catalogue, 2 for bad use; stopped.py has
    what ends it from outside."""
    options = parser(RUNS).parse_args(arguments)
    try:
        return stopped.ended(lambda: options.run(options))
    except CatalogueError as error:
        print("\n".join(str(problem) for problem in error.problems), file=sys.stderr)
        return BROKEN
    except ledger.LedgerError as error:
        print(error, file=sys.stderr)
        return BROKEN
    except (BadUse, ledger.NoCluster) as error:
        print(error, file=sys.stderr)
        return BAD_USE
    except BrokenPipeError:  # the reader has seen enough
        sys.stderr.close()
        return 0


def _lint(options) -> int:
    problems = lint(options.pinouts, options.own)
    # whatever a file holds, a terminal of few signs shows the rest
    sys.stdout.reconfigure(errors="backslashreplace")
    for problem in problems:
        print(problem)
    return BROKEN if problems else 0


def _judge(options) -> int:
    catalogue = load(options.pinouts, options.own)
    _known(catalogue.ports, options.start, options.target)
    _known(catalogue.leads, *options.through)
    verdict = judge(catalogue, options.start, options.through, options.target)
    lacking = instead = None
    if verdict.verdict != "safe":
        verdict = replace(verdict, remedies=remedies(catalogue, verdict))
        found = (verdict, *verdict.remedies)
        lacking, instead = beyond(catalogue, verdict.start, verdict.target, found)
    working = _working(options, catalogue, verdict)
    if options.schematic and working:
        from generator.drawing import draw_schematic

        options.schematic.write_text(draw_schematic(working), encoding="utf-8")
    if options.json:
        own = [{"asks": asks, "value": value} for asks, value in _own(catalogue, verdict)]
        data = verdict.as_data() | {
            "missing": lacking,
            "instead": instead.as_data() if instead else None,
            "own": own,
        }
        if options.explain or options.finding:
            data["working"] = working.as_data() if working else None
        print(json.dumps(data, indent=2, ensure_ascii=False))
    else:
        light = sends_light(catalogue.ports[verdict.start])
        print(terminal.told(verdict, _own(catalogue, verdict), light))
        if lacking:
            print(f"  {lacking}")
        if instead:
            print(terminal.instead(instead, "  "))
        if working and (options.explain or options.finding):
            print("", told(working), sep="\n")
    return 0


def _own(catalogue: Catalogue, verdict: Verdict) -> list[tuple[str, str]]:
    """Question and value of every number of the two ends that is somebody's own."""
    return [
        one
        for name in dict.fromkeys((verdict.start, verdict.target))
        for one in numbers(catalogue, catalogue.ports[name])
    ]


def _working(options, catalogue: Catalogue, verdict: Verdict) -> Working | None:
    """The working asked for; None when it was not, or when nothing fits and there is no circuit."""
    if not (options.explain or options.finding or options.schematic):
        return None
    if not (verdict.fits or options.finding or options.schematic):
        return None
    try:
        return explain(catalogue, options.start, options.through, options.target, options.finding)
    except ValueError as error:
        raise BadUse(str(error)) from None


def _route(options) -> int:
    catalogue = load(options.pinouts, options.own)
    _known(catalogue.ports, options.start, options.target)
    found = routes(catalogue, options.start, options.target)
    if options.json:
        print(json.dumps([verdict.as_data() for verdict in found], indent=2, ensure_ascii=False))
    else:
        lines = [terminal.offered(verdict) for verdict in found]
        lines = lines or [
            f"Nothing in the catalogue gets {options.start} into {options.target} without harm or silence."
        ]
        lacking, instead = beyond(catalogue, options.start, options.target, found)
        print("\n".join(filter(None, (*lines, lacking, instead and terminal.instead(instead)))))
    return 0


def _matrix(options) -> int:
    lines = "".join(
        json.dumps(verdict, ensure_ascii=False) + "\n"
        for verdict in ledger.judged(load(options.pinouts, options.own), REMEMBERED)
    )
    options.out.write_text(lines, encoding="utf-8") if options.out else sys.stdout.write(lines)
    return 0


def _draw(options) -> int:
    from generator.drawing import draw

    catalogue = load(options.pinouts, options.own)
    _known({name: None for kind in KINDS for name in getattr(catalogue, kind)}, options.id)
    try:
        print(draw(catalogue, options.id, view=options.view, half=options.half, mount=options.mount))
    except ValueError as error:
        raise BadUse(str(error)) from None
    return 0


def _sheets(options) -> int:
    from generator.drawing.sheets import sheets

    options.out.mkdir(parents=True, exist_ok=True)
    for name, text in sheets(load(options.pinouts, options.own)).items():
        (options.out / name).write_text(text, encoding="utf-8")
    return 0


def _docs(options) -> int:
    from generator.site.build import build

    catalogue = load(options.pinouts, options.own)
    build(catalogue, ledger.rows(catalogue, options.pinouts / "verdicts", REMEMBERED), options.out)
    return 0


def _ledger(options) -> int:
    catalogue, directory = load(options.pinouts), options.pinouts / "verdicts"
    try:
        before = ledger.read(directory) if options.since is None else at_revision(directory, options.since)
    except NoRevision as why:
        raise BadUse(str(why)) from None
    rows = ledger.rows(catalogue, directory, REMEMBERED, mend=True, address=options.cluster)
    print(changelog(before, ledger.text(rows)), end="")
    stale = list(ledger.stale(catalogue, rows, directory, REMEMBERED)) if options.check else []
    for fault in stale[:SOME]:
        print(fault, file=sys.stderr)
    if len(stale) > SOME:
        print(f"and {len(stale) - SOME} files more", file=sys.stderr)
    if options.check:
        return BROKEN if stale else 0
    ledger.keep(catalogue, rows, directory, REMEMBERED)
    ever.note(options.pinouts, {kind: getattr(catalogue, kind) for kind in KINDS})
    return 0


def _publishing(options) -> int:
    try:
        text, well = options.answers(options)
    except (publishing.Refused, NoQuestion) as why:
        raise BadUse(str(why)) from None
    if text:
        print(text)
    return 0 if well else BROKEN


def _interfere(options) -> int:
    from generator import interference

    catalogue = load(options.pinouts, options.own)
    tables = interference.with_ports(interference.tables(), catalogue)
    try:
        run = interference.read(options.file, catalogue, tables)
    except OSError as fault:
        raise BadUse(f"'{options.file}' cannot be read: {fault.strerror}.") from None
    except CatalogueError as error:
        raise BadUse(str(error)) from None
    told = interference.tell(run, tables)
    print(
        json.dumps(interference.as_data(told, tables), indent=2, ensure_ascii=False)
        if options.json
        else interference.as_lines(told, tables)
    )
    return 0


def _list(options) -> int:
    catalogue = load(options.pinouts, options.own)
    rows = [
        {"kind": kind, "id": name, "name": record.name}
        for kind in ([options.kind] if options.kind else KINDS)
        for name, record in getattr(catalogue, kind).items()
    ]
    print(
        json.dumps(rows, indent=2, ensure_ascii=False)
        if options.json
        else "\n".join(f"{r['id']:44} {r['name']}" for r in rows)
    )
    return 0


def _workshop(options) -> int:
    catalogue = load(options.pinouts, options.own)
    try:
        if options.asked.of == "run":
            _asked(catalogue, options)
        _known(catalogue.leads, *options.asked.leads(options))
        data, text = options.asked.answers(catalogue, options)
    except Misuse as error:
        raise BadUse(str(error)) from None
    print(json.dumps(data, indent=2, ensure_ascii=False) if options.json else text)
    return 0


def _asked(catalogue: Catalogue, options) -> None:
    """Raise BadUse where there is nothing to ask between the two ports."""
    _known(catalogue.ports, options.start, options.target)
    if not any(catalogue.ports[name].sources for name in (options.start, options.target)):
        raise BadUse(f"Neither '{options.start}' nor '{options.target}' sends anything; name one that does.")


def _known(records, *names: str) -> None:
    """Raise BadUse for the first id that is not there, with the nearest ids."""
    for name in names:
        if name not in records:
            near = get_close_matches(name, records, n=3, cutoff=0.4)
            raise BadUse(
                f"'{name}' is not in the catalogue." + (f" Nearest: {', '.join(near)}." if near else "")
            )


RUNS = {
    "lint": _lint,
    "judge": _judge,
    "route": _route,
    "matrix": _matrix,
    "draw": _draw,
    "sheets": _sheets,
    "docs": _docs,
    "ledger": _ledger,
    "interfere": _interfere,
    "publishing": _publishing,
    "list": _list,
    "workshop": _workshop,
}

if __name__ == "__main__":
    sys.exit(main())
