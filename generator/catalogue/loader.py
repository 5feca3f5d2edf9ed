"""YAML file -> tree of nodes. Only PyYAML's composer is used: nothing is resolved, so
`no` and `010` stay text."""

from __future__ import annotations

from pathlib import Path

import yaml

from .nodes import Many, Map, Node, Place, Text
from .problems import Problems, quoted

# bytes; the largest of ours has a tenth, and a tree takes some hundred times what its file does
LARGEST = 500_000
DEEPEST = 40  # the deepest of ours is a quarter of that
_Loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)  # the C parser where PyYAML was built with it


def read(path: Path, shown: str, problems: Problems) -> Map | None:
    """The file's map, or None when there is none; every fault of syntax is added to `problems`."""
    text = content(path, shown, problems)
    if text is None:
        return None
    try:
        if _depth(text) > DEEPEST:
            problems.add(
                Place(shown), "too-deep", f"maps and lists stand more than {DEEPEST} deep in each other here."
            )
            return None
        root = yaml.compose(text, Loader=_Loader)
    except yaml.MarkedYAMLError as fault:
        mark = fault.problem_mark or fault.context_mark
        words = ", ".join(filter(None, (fault.problem, fault.context)))
        problems.add(Place(shown, mark.line + 1, mark.column + 1), "syntax", f"this is not YAML: {words}.")
        return None
    except yaml.YAMLError as fault:
        problems.add(Place(shown), "syntax", f"this is not YAML: {' '.join(str(fault).split())}.")
        return None
    if root is None or root.value == "":
        problems.add(Place(shown), "empty-file", "the file is empty.")
        return None
    node = _Converter(shown, problems).convert(root)
    if isinstance(node, Map):
        return node
    if node is not None:
        problems.add(node.place, "wrong-type", "a file must be a map of `key: value` lines.")
    return None


def content(path: Path, shown: str, problems: Problems) -> str | None:
    """What stands in the file, or None where it cannot be had; why not is added to `problems`."""
    try:
        # a folder, a link that leads nowhere, a device that never ends
        if not path.is_file() and (path.exists() or path.is_symlink()):
            problems.add(
                Place(shown),
                "not-a-file",
                "this is named like a file and is none: a folder, or a link to something that is not there.",
            )
        elif path.stat().st_size > LARGEST:
            problems.add(
                Place(shown),
                "too-large",
                f"the file is larger than {LARGEST // 1000} kB, the most that is read.",
            )
        else:
            return path.read_text("utf-8-sig")
    except OSError as fault:
        problems.add(Place(shown), "not-a-file", f"this cannot be read: {fault.strerror}.")
    except UnicodeDecodeError as fault:
        problems.add(
            Place(shown), "syntax", f"the file is not UTF-8 text: {fault.reason} at byte {fault.start}."
        )
    return None


def _depth(text: str) -> int:
    """How deep maps and lists stand in each other, read event by event: a parser that builds trees would not
    come back from the depth."""
    depth = deepest = 0
    for event in yaml.parse(text, Loader=_Loader):
        depth += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
        deepest = max(deepest, depth)
        if deepest > DEEPEST:
            break
    return deepest


class _Converter:
    """Turns PyYAML's nodes into ours, once each: an alias would make two places one, and
    could even hold itself."""

    def __init__(self, shown: str, problems: Problems):
        self._shown, self._problems, self._seen = shown, problems, set()

    def _place(self, raw: yaml.Node) -> Place:
        return Place(self._shown, raw.start_mark.line + 1, raw.start_mark.column + 1)

    def convert(self, raw: yaml.Node) -> Node | None:
        place = self._place(raw)
        if id(raw) in self._seen:
            self._problems.add(
                place, "alias", "YAML aliases (`*name`) are not used here; repeat the value or use `same_as`."
            )
            return None
        self._seen.add(id(raw))
        if isinstance(raw, yaml.ScalarNode):
            return Text(raw.value, place)
        if isinstance(raw, yaml.SequenceNode):
            return Many(tuple(map(self.convert, raw.value)), place)
        return self._map(raw, place)

    def _map(self, raw: yaml.MappingNode, place: Place) -> Map:
        entries, keys = {}, {}
        for raw_key, raw_value in raw.value:
            key_place = self._place(raw_key)
            if not isinstance(raw_key, yaml.ScalarNode):
                self._problems.add(key_place, "syntax", "a key must be text.")
            elif raw_key.value in keys:
                first = keys[raw_key.value]
                self._problems.add(
                    key_place, "duplicate-key", f"{quoted(raw_key.value)} stands twice in this map.", first
                )
            else:
                keys[raw_key.value] = key_place
                entries[raw_key.value] = self.convert(raw_value)
        return Map(entries, keys, place)
