"""An id changed in one step: the file moves, what refers to it follows, and the old id is retired so that its
address still answers."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from . import ever, loader
from .kinds import KINDS
from .lint import lint
from .nodes import Many, Map, Node, Place, Text
from .problems import Problems
from .scalars import NAME, Ref
from .shapes import Either, ListOf, MapOf, Record

_MOVED = re.compile(r"^moved:\s*\{(?P<inside>[^{}\n]*)\}", re.MULTILINE)


class CannotRename(ValueError):
    """Nothing was changed; the message says why."""


def rename(directory: Path, old: str, new: str) -> list[Path]:
    """Rename a connector, assignment, port or lead; returns the files that changed. Raises CannotRename."""
    if not re.fullmatch(NAME, new):
        raise CannotRename(f"'{new}' is not an id; write lower-case words and digits joined by hyphens.")
    kinds = [kind for kind in ever.ADDRESSED if (directory / kind / f"{old}.yaml").is_file()]
    if not kinds:
        raise CannotRename(f"there is no connector, assignment, port or lead '{old}'.")
    taken = [kind for kind in ever.ADDRESSED if (directory / kind / f"{new}.yaml").exists()]
    retired, texts = (
        directory / "retired.yaml",
        {path: path.read_text(encoding="utf-8") for path in _files(directory)},
    )
    if (
        taken
        or any(line.endswith(f"/{new}") for line in ever.read(directory))
        or re.search(rf"(?<![\w-]){new}(?=\s*:)", texts.get(retired, ""))
    ):
        raise CannotRename(f"'{new}' is or was the id of something; an id is never used for a second thing.")
    changed = {path: _replaced(path, text, kinds[0], old, new) for path, text in texts.items()}
    if not _MOVED.search(changed.get(retired, "")):
        raise CannotRename(f"{retired} needs a line `moved: {{...}}`, where '{old}' is to be named.")
    changed[retired] = _MOVED.sub(lambda found: _listed(found["inside"], old, new), changed[retired], count=1)
    written = [path for path in changed if changed[path] != texts[path]]
    for path in written:
        path.write_text(changed[path], encoding="utf-8")
    file = directory / kinds[0] / f"{old}.yaml"
    moved = file.rename(file.with_name(f"{new}.yaml"))
    faults = lint(directory)
    if faults:  # something names the id in a way not foreseen here: as it was
        moved.rename(file)
        for path in written:
            path.write_text(texts[path], encoding="utf-8")
        raise CannotRename(
            f"'{old}' is named where this command does not follow; change it by hand. The first such place:\n"
            f"{faults[0]}"
        )
    return sorted({moved, *(path for path in written if path != file)})


def _files(directory: Path) -> Iterator[Path]:
    for path in sorted(directory.rglob("*.yaml")):
        if path.relative_to(directory).parts[0] not in ("verdicts", "schema") and path.is_file():
            yield path


def _listed(inside: str, old: str, new: str) -> str:
    return f"moved: {{{', '.join(filter(None, (inside.strip(), f'{old}: {new}')))}}}"


def _replaced(path: Path, text: str, kind: str, old: str, new: str) -> str:
    """The file's text with everything that refers to the old id of that kind referring to the new one; the
    same word elsewhere stays."""
    problems = Problems()
    tree = loader.read(path, str(path), problems)
    if tree is None or problems.sorted():
        raise CannotRename(f"{path} has faults; run lint first.")
    lines = text.split("\n")
    of = path.stem if path.stem in KINDS else path.parent.name
    for place in sorted(
        {*_referring(of, tree, kind, old)}, key=lambda place: (place.line, place.column), reverse=True
    ):
        line = lines[place.line - 1]
        start = line.index(old, place.column - 1)  # behind a quotation mark, if there is one
        lines[place.line - 1] = line[:start] + new + line[start + len(old) :]
    return "\n".join(lines)


def _referring(of: str, tree: Map, kind: str, old: str) -> Iterator[Place]:
    for node, scalar in _leaves(KINDS[of], tree):
        if isinstance(scalar, Ref) and scalar.kind == kind and node.text == old:
            yield node.place
    if of == "retired":
        yield from (node.place for node in _texts(tree) if node.text == old)


def _leaves(shape, node: Node | None) -> Iterator[tuple[Text, object]]:
    """Every text of a file, keys that are ids too, with what it is declared to be."""
    if isinstance(shape, Either):
        shape = shape.scalar if isinstance(node, Text) else shape.record
    if isinstance(shape, ListOf):
        for item in node.items if isinstance(node, Many) else (node,):
            yield from _leaves(shape.item, item)
    elif isinstance(shape, MapOf) and isinstance(node, Map):
        for key, value in node.entries.items():
            yield Text(key, node.keys[key]), shape.key
            yield from _leaves(shape.value, value)
    elif isinstance(shape, Record) and isinstance(node, Map):
        for key in node.entries.keys() & shape.fields.keys():
            yield from _leaves(shape.fields[key].shape, node.entries[key])
    elif isinstance(node, Text):
        yield node, shape


def _texts(node: Node | None) -> Iterator[Text]:
    if isinstance(node, Text):
        yield node
    children = (
        node.items if isinstance(node, Many) else node.entries.values() if isinstance(node, Map) else ()
    )
    for child in children:
        yield from _texts(child)
