"""The catalogue, read once; a spoilt file is read anew, and linted with all it leads to and
some of what leads to it.

What else there is stays known by its ids, as a file that cannot be read would be: nothing is said
of it and nothing that follows from it. `whole` lints the same files from the folder; what it says
of them must be the same.
"""

from __future__ import annotations

import os
import shutil
from collections import defaultdict
from collections.abc import Callable, Iterable
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass, field
from importlib import import_module
from pathlib import Path
from unittest.mock import patch

from generator.catalogue import build, default_directory, ever, loader, same_as
from generator.catalogue.context import Context
from generator.catalogue.kinds import FOLDERS, KINDS, SINGLE
from generator.catalogue.lint import lint
from generator.catalogue.meaning import CHECKS
from generator.catalogue.nodes import Many, Map, Node, Text
from generator.catalogue.problems import Problem, Problems
from generator.catalogue.shapes import MapOf, Record
from generator.catalogue.survey import examine, read

BYSTANDER = "pinouts/cables/bystander.yaml"  # has a plain fault, to be told whatever else there is
BYSTANDING = "name: Bystander\ncore: 80 mohm/m\ncurrent: 1 A\nevidence: hearsay\n"
One = tuple[str, str]  # a record's kind and id
survey = import_module("generator.catalogue.survey")  # the package has a function of that name


@dataclass(frozen=True)
class Mutant:
    """One spoilt file: of the catalogue (`kind` and `id`), or somebody's own (`kind` is "own"). `made` puts
    something else than a file there."""

    kind: str
    id: str
    content: bytes
    how: tuple[str, ...] = ()
    made: str = ""

    @property
    def name(self) -> str:
        if self.kind in FOLDERS:
            return f"pinouts/{self.kind}/{self.id}.yaml"
        return {"own": f"own/{self.id}.yaml", "published": f"pinouts/{ever.FILE}"}.get(
            self.kind, f"pinouts/{self.kind}.yaml"
        )


class Remembered:
    """The shape of a kind of file, which checks each sound file once: what comes of it depends on the file
    and on which ids there are."""

    def __init__(self, shape: Record | MapOf, sound: set[int]):
        self._shape, self._sound, self._checked = shape, sound, {}

    def check(self, node: Map, name: str, context: Context) -> Map:
        if id(node) not in self._sound:
            return self._shape.check(node, name, context)
        if id(node) not in self._checked:
            self._checked[id(node)] = self._shape.check(node, name, context)
        return self._checked[id(node)]


@dataclass
class Held:
    """`directory` is an empty folder to work in."""

    directory: Path
    raw: dict[str, dict[str, Map]] = field(init=False)
    texts: dict[One, str] = field(init=False)

    def __post_init__(self) -> None:
        source, problems = default_directory(), Problems()
        (self.directory / "pinouts").mkdir()
        for name in [*FOLDERS, *(f"{kind}.yaml" for kind in SINGLE)]:
            (shutil.copytree if name in FOLDERS else shutil.copy)(
                source / name, self.directory / "pinouts" / name
            )
        with _standing(self.directory):
            self.raw = read(Path("pinouts"), problems)
            Path(BYSTANDER).write_text(BYSTANDING)
            self._bystander = loader.read(Path(BYSTANDER), BYSTANDER, problems)
        assert not problems.sorted()
        self.texts = {
            (kind, name): (source / kind / f"{name}.yaml").read_text("utf-8")
            for kind in FOLDERS
            for name in self.raw[kind]
        }
        self.texts |= {(kind, kind): (source / f"{kind}.yaml").read_text("utf-8") for kind in SINGLE}
        self.texts["published", "published"] = (source / ever.FILE).read_text("utf-8")
        self._filled = {kind: _filled(self.raw[kind]) for kind in FOLDERS}
        self._shapes = {
            kind: Remembered(shape, set(map(id, self._filled.get(kind, {}).values())))
            for kind, shape in KINDS.items()
        }
        self._relate()

    def _relate(self) -> None:
        """Which record names which: by its id, or by what it is called."""
        self._words = {(kind, name): words(node) for kind in FOLDERS for name, node in self.raw[kind].items()}
        self._called: dict[str, set[One]] = defaultdict(set)
        for kind, name in self._words:
            for word in (name, self.raw[kind][name].entries["name"].text):
                self._called[word].add((kind, name))
        self._needs = {record: self._named(found) - {record} for record, found in self._words.items()}
        self._wanted_by: dict[One, list[One]] = defaultdict(list)
        for record, needs in self._needs.items():
            for one in sorted(needs):
                self._wanted_by[one].append(record)

    def _named(self, found: Iterable[str]) -> set[One]:
        return set().union(*(self._called[word] for word in found if word in self._called))

    def faults(self, mutant: Mutant, wanting: int | None = 2) -> list[Problem]:
        """All faults with the spoilt file, and the records built where there is none. `wanting`: how many of
        what leads to the file, None for all."""
        with _standing(self.directory), self._in_place(mutant) as path:
            problems = Problems()
            spoilt = (
                loader.read(path, mutant.name, Problems() if mutant.kind == "own" else problems)
                if mutant.kind != "published"
                else None
            )
            names = words(spoilt)
            chosen = self._with(mutant, names, wanting)
            touched = self._touched(mutant, chosen, names)
            checks = {kind: [_of(kind, touched, check) for check in those] for kind, those in CHECKS.items()}
            shapes = KINDS if mutant.kind in ("sources", "questions") else self._shapes
            with patch.multiple(survey, KINDS=shapes, CHECKS=checks):
                own = [path] if mutant.kind == "own" else []
                context = examine(Path("pinouts"), self._beside(mutant, spoilt, names, chosen), own, problems)
            found = context.problems.sorted()
            if len(found) == 1:
                for kind in ("ports", "leads"):
                    context.trees[kind] = {
                        name: tree for name, tree in context.trees[kind].items() if (kind, name) in touched
                    }
                build.catalogue(context)
            return found

    def _beside(
        self, mutant: Mutant, spoilt: Map | None, names: set[str], chosen: set[One]
    ) -> dict[str, dict[str, Map | None]]:
        """What is read of the catalogue: the spoilt file, what is chosen, the bystander, of sources and
        questions what is cited; else ids alone."""
        raw = {kind: dict.fromkeys(ids) for kind, ids in self.raw.items()}
        for kind, name in chosen:
            raw[kind][name] = (
                self.raw if mutant.kind == kind and mutant.id in self._bases(kind, name) else self._filled
            )[kind][name]
        raw["cables"]["bystander"] = self._bystander
        cited = names.union(*(self._words[record] for record in chosen))
        for kind in SINGLE:
            whole = self.raw[kind][kind]
            raw[kind][kind] = Map(
                {key: node for key, node in whole.entries.items() if key in cited or kind == "retired"},
                whole.keys,
                whole.place,
            )
        if mutant.kind in raw:
            raw[mutant.kind][mutant.id] = spoilt
        return raw

    def _touched(self, mutant: Mutant, chosen: set[One], names: set[str]) -> set[One]:
        """What lint may say something else of than before: the file, what leads to it, and whatever is
        called as it is called now."""
        at = (mutant.kind, mutant.id)
        if mutant.kind in SINGLE:
            return chosen | {at}
        # an own file is one of the first two
        return {("leads", mutant.id), ("ports", mutant.id), at, *self._all_leading(at), *self._named(names)}

    def _with(self, mutant: Mutant, names: set[str], wanting: int | None) -> set[One]:
        """What is linted with the file: whatever it names or named, whatever leads to it, and so on to
        what each of them names."""
        at = (mutant.kind, mutant.id)
        if mutant.kind in SINGLE:
            before = words(self.raw[mutant.kind][mutant.kind])
            # a question may have another unit
            gone = before if mutant.kind == "questions" or not names else before - names
            leading = [record for record, found in self._words.items() if found & gone]
        else:
            leading = sorted(self._all_leading(at)) if wanting is None else self._wanted_by.get(at, [])
        if wanting is not None and len(leading) > wanting:
            step = len(leading) // wanting
            leading = leading[len(mutant.content) % step :: step][:wanting]
        found, edge = set(), {*leading, *self._named(names)} | ({at} if at in self._needs else set())
        while edge:
            found |= edge
            edge = set().union(*(self._needs[record] for record in edge)) - found
        return found

    def _bases(self, kind: str, name: str) -> list[str]:
        """The records this one takes keys from, one after the other."""
        found = []
        while base := self.raw[kind][name].entries.get("same_as"):
            name = base.text
            found.append(name)
        return found

    def _all_leading(self, at: One) -> set[One]:
        found, edge = set(), {at}
        while edge:
            edge = {record for one in edge for record in self._wanted_by.get(one, ())} - found
            found |= edge
        return found

    def whole(self, mutant: Mutant) -> list[Problem]:
        """All faults, as the command finds them."""
        listed = Mutant("published", "published", self.texts["published", "published"].encode())
        beside = self._in_place(listed) if mutant.kind != "published" else nullcontext()
        with _standing(self.directory), self._in_place(mutant) as path, beside:
            return lint(Path("pinouts"), [path] if mutant.kind == "own" else [])

    @contextmanager
    def _in_place(self, mutant: Mutant):
        path = Path(mutant.name)
        path.parent.mkdir(exist_ok=True)
        before = path.read_bytes() if path.exists() else None
        path.unlink(missing_ok=True)
        try:
            _make(path, mutant)
            yield path
        finally:
            shutil.rmtree(path) if path.is_dir() and not path.is_symlink() else path.unlink()
            if before is not None:
                path.write_bytes(before)


def _filled(records: dict[str, Map]) -> dict[str, Map]:
    """Records that have all they take from others already."""
    whole = same_as.resolve(records, Problems(), lambda *_: True)
    return {
        name: Map(
            {key: value for key, value in node.entries.items() if key != "same_as"}, node.keys, node.place
        )
        for name, node in whole.items()
    }


def _of(kind: str, touched: set[One], check: Callable) -> Callable:
    """The check, made on what is touched alone."""
    return lambda name, tree, context: check(name, tree, context) if (kind, name) in touched else None


MADE = {
    "folder": lambda path: path.mkdir(),
    "pipe": os.mkfifo,
    "device": lambda path: path.symlink_to("/dev/zero"),
    "dangling link": lambda path: path.symlink_to("nowhere"),
    "link to itself": lambda path: path.symlink_to(path.name),
    "link to its folder": lambda path: path.symlink_to("."),
}


def _make(path: Path, mutant: Mutant) -> None:
    if mutant.made:
        MADE[mutant.made](path)
    else:
        path.write_bytes(mutant.content)


@contextmanager
def _standing(directory: Path):
    before = os.getcwd()
    os.chdir(directory)
    try:
        yield
    finally:
        os.chdir(before)


def words(node: Node | None) -> set[str]:
    """Every key and every value."""
    if isinstance(node, Text):
        return {node.text}
    if isinstance(node, Map):
        return set(node.entries).union(*map(words, node.entries.values()))
    return set().union(*map(words, node.items)) if isinstance(node, Many) else set()
