"""The catalogue, read once; a spoilt file is read anew, and linted with all it leads to and some of what leads to it.

What else there is stays known by its ids, as a file that cannot be read would be: nothing is said of it and nothing that follows from it.
`whole` lints the same files from the folder; what it says of them must be the same.
"""

from __future__ import annotations

import os
import re
import shutil
from collections import defaultdict
from collections.abc import Callable, Iterable
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass, field
from importlib import import_module
from pathlib import Path
from unittest.mock import patch

import yaml

from generator.catalogue import build, default_directory, ever, loader, same_as
from generator.catalogue.context import Context
from generator.catalogue.kinds import FOLDERS, KINDS, SINGLE
from generator.catalogue.lint import lint
from generator.catalogue.meaning import CHECKS
from generator.catalogue.nodes import Many, Map, Node, Text
from generator.catalogue.problems import Problem, Problems
from generator.catalogue.rules import RULES
from generator.catalogue.shapes import MapOf, Record
from generator.catalogue.survey import examine, read

BYSTANDER = "name: Bystander\ncore: 80 mohm/m\ncurrent: 1 A\nevidence: hearsay\n"  # a plain fault in another file, told whatever else there is
TOLD = "pinouts/cables/bystander.yaml:4:11: error[bad-evidence]"
LONGEST_ECHO, LONGEST_MESSAGE = 200, 4100
One = tuple[str, str]  # a record's kind and id
survey = import_module("generator.catalogue.survey")  # the package has a function of that name


@dataclass(frozen=True)
class Mutant:
    """One spoilt file: of the catalogue (`kind` and `id`), or somebody's own (`kind` is "own"). `made` puts something else than a file there."""

    kind: str
    id: str
    content: bytes
    how: tuple[str, ...] = ()
    made: str = ""

    @property
    def name(self) -> str:
        if self.kind == "own":
            return f"own/{self.id}.yaml"
        return f"pinouts/{ever.FILE}" if self.kind == "published" else f"pinouts/{self.kind}.yaml" if self.kind in SINGLE else f"pinouts/{self.kind}/{self.id}.yaml"


class Remembered:
    """The shape of a kind of file, which checks each sound file once: what comes of it depends on the file and on which ids there are."""

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
            (shutil.copytree if name in FOLDERS else shutil.copy)(source / name, self.directory / "pinouts" / name)
        with _standing(self.directory):
            self.raw = read(Path("pinouts"), problems)
            (self.directory / "pinouts/cables/bystander.yaml").write_text(BYSTANDER)
            self.raw["cables"]["bystander"] = loader.read(Path("pinouts/cables/bystander.yaml"), "pinouts/cables/bystander.yaml", problems)
        assert not problems.sorted()
        files = [source / f"{kind}/{name}.yaml" for kind in FOLDERS for name in self.raw[kind] if name != "bystander"]
        files += [*(source / f"{kind}.yaml" for kind in SINGLE), source / ever.FILE]
        self.texts = {(path.parent.name if path.parent.name in FOLDERS else path.stem, path.stem): path.read_text("utf-8") for path in files}
        self._filled = {kind: {name: _without_same_as(node) for name, node in same_as.resolve(self.raw[kind], problems, lambda *_: True).items()} for kind in FOLDERS}
        self._shapes = {kind: Remembered(shape, {id(node) for name, node in self._filled.get(kind, {}).items() if name != "bystander"}) for kind, shape in KINDS.items()}
        self._words = {(kind, name): words(node) for kind in FOLDERS for name, node in self.raw[kind].items()}
        called = defaultdict(set)
        for record in self._words:
            for word in (record[1], self.raw[record[0]][record[1]].entries["name"].text):
                called[word].add(record)
        self._called = dict(called)
        self._needs = {record: self._named(found) - {record} for record, found in self._words.items()}
        self._wanted_by = defaultdict(list)
        for record, needs in self._needs.items():
            for one in sorted(needs):
                self._wanted_by[one].append(record)

    def _named(self, found: Iterable[str]) -> set[One]:
        return set().union(*(self._called[word] for word in found if word in self._called))

    def faults(self, mutant: Mutant, wanting: int | None = 2) -> list[Problem]:
        """All faults with the spoilt file, and the records built where there is none. `wanting`: how many of what leads to the file, None for all."""
        with _standing(self.directory), self._in_place(mutant) as path:
            problems = Problems()
            raw = {kind: dict.fromkeys(ids) for kind, ids in self.raw.items()}
            names = set()
            if mutant.kind not in ("own", "published"):
                node = loader.read(path, mutant.name, problems)
                raw[mutant.kind][mutant.id] = node
                names = words(node)
            elif mutant.kind == "own":
                names = words(loader.read(path, mutant.name, Problems()))
            chosen = self._with(mutant, names, wanting)
            for kind, name in chosen - {(mutant.kind, mutant.id)}:
                raw[kind][name] = (self.raw if mutant.kind == kind and mutant.id in self._bases(kind, name) else self._filled)[kind][name]
            raw["cables"]["bystander"] = self.raw["cables"]["bystander"]
            cited = names.union(*(self._words[record] for record in chosen))
            for kind in SINGLE:
                if mutant.kind != kind:
                    whole = self.raw[kind][kind]
                    raw[kind][kind] = whole if kind == "retired" else Map({key: node for key, node in whole.entries.items() if key in cited}, whole.keys, whole.place)
            touched = self._touched(mutant, chosen, names)
            shapes = KINDS if mutant.kind in ("sources", "questions") else self._shapes
            with patch.multiple(survey, KINDS=shapes, CHECKS={kind: [_of(kind, touched, check) for check in checks] for kind, checks in CHECKS.items()}):
                context = examine(Path("pinouts"), raw, [path] if mutant.kind == "own" else [], problems)
            found = context.problems.sorted()
            if len(found) == 1:
                for kind in ("ports", "leads"):
                    context.trees[kind] = {name: tree for name, tree in context.trees[kind].items() if (kind, name) in touched}
                build.catalogue(context)
            return found

    def _touched(self, mutant: Mutant, chosen: set[One], names: set[str]) -> set[One]:
        """What lint may say something else of than before: the file, what leads to it, and whatever is called as it is called now."""
        at = (mutant.kind, mutant.id)
        if mutant.kind in SINGLE:
            return chosen | {at}
        return {("leads", mutant.id), ("ports", mutant.id), at, *self._all_leading(at), *self._named(names)}  # an own file is one of the first two

    def _with(self, mutant: Mutant, names: set[str], wanting: int | None) -> set[One]:
        """What is linted with the file: whatever it names or named, whatever leads to it, and so on to what each of them names."""
        at = (mutant.kind, mutant.id)
        if mutant.kind in SINGLE:
            before = words(self.raw[mutant.kind][mutant.kind])
            leading = [record for record, found in self._words.items() if found & (before if mutant.kind == "questions" or not names else before - names)]
            leading = leading if mutant.kind != "retired" else []
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
        with _standing(self.directory), self._in_place(mutant) as path, self._in_place(listed) if mutant.kind != "published" else nullcontext():
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


def _without_same_as(node: Map) -> Map:
    """A record that has all it takes from others already."""
    return Map({key: value for key, value in node.entries.items() if key != "same_as"}, node.keys, node.place)


def _of(kind: str, touched: set[One], check: Callable) -> Callable:
    """The check, made on what is touched alone."""
    return lambda name, tree, context: check(name, tree, context) if (kind, name) in touched else None


MADE = {
    "folder": lambda path: path.mkdir(), "dangling link": lambda path: path.symlink_to("nowhere"), "link to itself": lambda path: path.symlink_to(path.name),
    "device": lambda path: path.symlink_to("/dev/zero"), "pipe": os.mkfifo, "link to its folder": lambda path: path.symlink_to("."),
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


def complaints(mutant: Mutant, found: list[Problem]) -> list[str]:
    """What is wrong with the faults themselves."""
    wrong = []
    if not any(str(fault).startswith(TOLD) for fault in found):
        wrong.append("the other file's fault is not told")
    lines = len(re.findall(r"\r\n|[\n\r\x85\u2028\u2029]", mutant.content.decode("utf-8", "replace"))) + 1
    long = [one for one in (" ".join(text.split()) for text in _scalars(mutant.content)) if len(one) > LONGEST_ECHO]
    for fault in found:
        if not re.fullmatch(r"(pinouts|own)(/[a-z0-9./-]+)?", fault.path) or fault.rule not in RULES:
            wrong.append(f"no file or no rule of ours: {fault.path!r} {fault.rule}")
        if fault.line < 1 or fault.column < 1 or fault.path == mutant.name and fault.line > lines + 1:
            wrong.append(f"there is no line {fault.line} in the file: {fault}"[:300])
        if not fault.message or len(fault.message) > LONGEST_MESSAGE or not fault.message.isprintable():
            wrong.append(f"not one plain line: {fault.message[:300]!r}")
        plain = " ".join(fault.message.split())
        if any(one[: LONGEST_ECHO + 1] in plain for one in long):
            wrong.append(f"a value is echoed at length: {fault.message[:300]!r}")
    return wrong


def _scalars(content: bytes) -> set[str]:
    """Every long text in the file, as far as it can be parsed."""
    found = set()
    try:
        for event in yaml.parse(content.decode("utf-8-sig"), Loader=getattr(yaml, "CBaseLoader", yaml.BaseLoader)):
            if isinstance(event, yaml.ScalarEvent) and len(event.value) > LONGEST_ECHO:
                found.add(event.value)
    except (yaml.YAMLError, UnicodeDecodeError):
        pass
    return found
