"""Reads a directory of YAML and checks it as far as it can: files, shapes, `same_as`,
then what the words mean."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Sequence
from contextlib import suppress
from pathlib import Path

from . import ever, loader, same_as
from .context import SINGULAR, Context
from .kinds import FOLDERS, KINDS, SINGLE
from .meaning import CHECKS
from .nodes import Many, Map, Place, Text, Unusable
from .problems import Problems, did_you_mean, quoted, short
from .scalars import NAME

_NOT_OURS = ("verdicts", "schema")  # written by programs, not by people
_ADDRESSED = ("connectors", "assignments", "ports", "leads")  # kinds that share one space of ids


def survey(directory: Path, own: Sequence[Path] = ()) -> Context:
    """Everything there is to know about the directory, and about somebody's own files and folders of files
    beside it, with all its problems."""
    problems = Problems()
    return examine(directory, read(directory, problems), own, problems)


def examine(
    directory: Path, raw: dict[str, dict[str, Map | None]], own: Sequence[Path], problems: Problems
) -> Context:
    """What `read` found, and somebody's own files, checked."""
    places = {kind: _places(_shown(directory / kind), raw[kind]) for kind in FOLDERS}
    for kind in ("sources", "questions"):
        places[kind] = dict(raw[kind][kind].keys) if raw[kind].get(kind) else {}
    unreadable = {kind for kind in ("sources", "questions") if raw[kind] and not places[kind]}
    context = Context(
        problems,
        places,
        _retired(raw["retired"].get("retired")),
        unreadable,
        local=_add(own, raw, places, problems),
    )
    _check_ids(context)
    ever.check(directory, _shown(directory / ever.FILE), places, context.retired, problems)
    for kind in KINDS:
        context.trees[kind] = _check_shapes(kind, raw[kind], context)
    _check_meaning(context)
    return context


def read(directory: Path, problems: Problems) -> dict[str, dict[str, Map | None]]:
    """kind -> id -> what the file holds, None where it cannot be read."""
    raw = {kind: {} for kind in KINDS}
    for path in _files(directory, problems):
        kind, shown = _kind(path, directory), _shown(path)
        if kind is None:
            guess = did_you_mean(path.parent.name, FOLDERS)
            message = f"no YAML file is looked for here; the folders are {', '.join(FOLDERS)}.{guess}"
            problems.add(Place(shown), "stray-file", message)
            continue
        if not re.fullmatch(rf"{NAME}\.yaml", path.name):
            rule = (
                "must start with a letter, be lower-case words and digits joined by hyphens, and end in .yaml"
            )
            problems.add(Place(shown), "bad-file-name", f"'{path.name}' {rule}.")
        raw[kind][path.stem] = loader.read(path, shown, problems)
    return raw


def _add(
    own: Sequence[Path],
    raw: dict[str, dict[str, Map | None]],
    places: dict[str, dict[str, Place]],
    problems: Problems,
) -> tuple[str, ...]:
    """Somebody's own ports and leads, put to those of the catalogue; what has ends is a
    lead. Returns their ids."""
    found = []
    for path in [file for one in own for file in (sorted(one.rglob("*.yaml")) if one.is_dir() else [one])]:
        shown, node = _shown(path), loader.read(path, _shown(path), problems)
        if not re.fullmatch(rf"{NAME}\.yaml", path.name):
            problems.add(
                Place(shown),
                "bad-file-name",
                f"'{path.name}' must be lower-case words and digits joined by hyphens, and end in .yaml.",
            )
            continue
        base = node.entries.get("same_as") if node else None
        kind = (
            "leads"
            if node and ("ends" in node or (isinstance(base, Text) and base.text in raw["leads"]))
            else "ports"
        )
        taken = next((places[other][path.stem] for other in _ADDRESSED if path.stem in places[other]), None)
        if taken:
            problems.add(
                Place(shown), "id-taken", f"'{path.stem}' is taken; give the file another name.", taken
            )
            continue
        raw[kind][path.stem], places[kind][path.stem] = node, Place(shown)
        found.append(path.stem)
    return tuple(found)


def _files(directory: Path, problems: Problems) -> list[Path]:
    found = sorted(path for path in directory.rglob("*") if path.suffix in (".yaml", ".yml"))
    ours = [path for path in found if path.relative_to(directory).parts[0] not in _NOT_OURS]
    if not ours:
        problems.add(
            Place(_shown(directory)), "no-catalogue", "there is no catalogue here: not one YAML file."
        )
    return ours


def _kind(path: Path, directory: Path) -> str | None:
    folder = path.relative_to(directory).parts[:-1]
    if not folder and path.suffix == ".yaml" and path.stem in SINGLE:
        return path.stem
    return folder[0] if len(folder) == 1 and folder[0] in FOLDERS else None


def _shown(path: Path) -> str:
    """Relative to where the reader stands if that is above the file, so that a terminal can follow it."""
    relative = os.path.relpath(path)
    return path.as_posix() if relative.startswith("..") else Path(relative).as_posix()


def _places(folder: str, ids: Iterable[str]) -> dict[str, Place]:
    above = "" if folder == "." else f"{folder}/"
    return {id: Place(f"{above}{id}.yaml") for id in ids}


def _retired(node: Map | None) -> dict[str, tuple[str, ...]]:
    """old id -> successors, as far as it can be read."""
    retired = {}
    for group in ("moved", "split"):
        entries = node.entries.get(group) if node else None
        for old, new in entries.items() if isinstance(entries, Map) else ():
            successors = new.items if isinstance(new, Many) else (new,)
            retired[old] = tuple(node.text for node in successors if isinstance(node, Text))
    return retired


def _check_ids(context: Context) -> None:
    taken: dict[str, Place] = {}
    for kind in _ADDRESSED:
        for id, place in context.ids[kind].items():
            if id in taken:
                message = f"'{id}' is taken; connectors, assignments, ports and leads share one set of ids."
                context.problems.add(place, "id-taken", message, taken[id])
            taken.setdefault(id, place)


def _check_shapes(kind: str, raw: dict[str, Map | None], context: Context) -> dict[str, Map]:
    """The records of one kind, filled by `same_as`, without what is broken in them."""
    readable = {id: node for id, node in raw.items() if node}
    # of sources, questions and retired ids there is one file each: nothing to take keys from, and
    # `same_as` is no key there
    filled = readable
    if kind in FOLDERS:
        filled = same_as.resolve(
            readable, context.problems, lambda id, place: context.check_reference(kind, id, place)
        )
    if kind == "ports":
        filled = {id: _fill_instances(node, context) for id, node in filled.items()}
    shape, name = KINDS[kind], f"this {SINGULAR[kind]}" if kind in FOLDERS else "this file"
    context.kind = kind
    # one whose `same_as` leads nowhere is not checked: all it lacks would be reported
    return {id: shape.check(node, name, context) for id, node in filled.items()}


def _fill_instances(port: Map, context: Context) -> Map:
    """A port whose instances may use `same_as` for another instance of the same port."""
    circuit = port.entries.get("circuit")
    if not isinstance(circuit, Map):
        return port

    def check(id: str, place: Place) -> bool:
        if id not in circuit:
            message = (
                f"this port has no instance {quoted(id)}; it has "
                f"{', '.join(map(short, circuit.entries))}.{did_you_mean(id, circuit.entries)}"
            )
            context.problems.add(place, "unknown-instance", message)
        return id in circuit

    maps = {key: value for key, value in circuit.entries.items() if isinstance(value, Map)}
    if not any("same_as" in instance for instance in maps.values()):
        return port
    filled = same_as.resolve(maps, context.problems, check)
    entries = {key: filled.get(key) if key in maps else value for key, value in circuit.entries.items()}
    return Map(port.entries | {"circuit": Map(entries, circuit.keys, circuit.place)}, port.keys, port.place)


def _check_meaning(context: Context) -> None:
    for kind, checks in CHECKS.items():
        for id, tree in context.trees[kind].items():
            for check in checks:
                with suppress(Unusable):  # it needs something that is broken and already reported
                    check(id, tree, context)
