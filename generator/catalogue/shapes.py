"""Lists and maps of scalars, declared once: the same declaration checks a file and becomes an
editor's JSON Schema."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .context import Context
from .nodes import Many, Map, Node, Text
from .problems import did_you_mean, nearest, quoted
from .scalars import Scalar, kind_of_node


@dataclass(frozen=True)
class ListOf:
    """A list; where `one` is set a lone item may stand without brackets."""

    item: Scalar
    least: int = 0
    most: int | None = None
    one: bool = False

    def check(self, node: Node, name: str, context: Context) -> Many | None:
        if self.one and isinstance(node, Text):
            node = Many((node,), node.place)
        if not isinstance(node, Many):
            context.problems.add(
                node.place, "wrong-type", f"{name} must be a list, not {kind_of_node(node)}."
            )
            return None
        if len(node.items) < self.least:
            message = f"{name} has {len(node.items)} of at least {self.least} items."
            context.problems.add(node.place, "too-few", message)
            return None
        if self.most is not None and len(node.items) > self.most:
            context.problems.add(
                node.place, "too-many", f"{name} has {len(node.items)} of at most {self.most} items."
            )
            return None
        return Many(tuple(item and self.item.check(item, name, context) for item in node.items), node.place)

    def leaves(self, node: Many):
        for item in node:
            yield from self.item.leaves(item)

    def schema(self) -> dict:
        many = {"type": "array", "items": self.item.schema(), "minItems": self.least}
        if self.most is not None:
            many["maxItems"] = self.most
        return {"anyOf": [self.item.schema(), many]} if self.one else many


@dataclass(frozen=True)
class MapOf:
    """A map whose keys the author chooses; `key` is the shape of a key."""

    value: Shape
    key: Scalar
    least: int = 0

    def check(self, node: Node, name: str, context: Context) -> Map | None:
        if not isinstance(node, Map):
            context.problems.add(node.place, "wrong-type", f"{name} must be a map, not {kind_of_node(node)}.")
            return None
        if len(node.entries) < self.least:
            message = f"{name} has {len(node.entries)} of at least {self.least} entries."
            context.problems.add(node.place, "too-few", message)
            return None
        entries = {}
        for key, value in node.entries.items():
            good = self.key.check(Text(key, node.keys[key]), name, context)
            entries[key] = value and self.value.check(value, f"'{key}'", context) if good else None
        return Map(entries, node.keys, node.place)

    def leaves(self, node: Map):
        for _, value in node.items():
            yield from self.value.leaves(value)

    def schema(self) -> dict:
        # no least number here: a file with `same_as` may write only what differs
        names = {key: value for key, value in self.key.schema().items() if key == "pattern"}
        return {"type": "object", "propertyNames": names, "additionalProperties": self.value.schema()}


@dataclass(frozen=True)
class Field:
    """A key of a Record: what it holds, whether it must be there, and help for whoever writes it."""

    shape: Shape
    help: str
    required: bool = False

    def schema(self) -> dict:
        return {"description": f"{self.help[0].upper()}{self.help[1:]}.", **self.shape.schema()}


@dataclass(frozen=True)
class Record:
    """A map with known keys. `one_of`: groups of keys of which exactly one stands. `rest`: the shape of keys
    that are not known (parameters of a circuit). `evidence`: standard and published must cite. `same_as` may
    supply what is required."""

    fields: Mapping[str, Field]
    one_of: tuple[tuple[str, ...], ...] = ()
    rest: MapOf | None = None
    evidence: bool = False

    def check(self, node: Node, name: str, context: Context) -> Map | None:
        if not isinstance(node, Map):
            context.problems.add(node.place, "wrong-type", f"{name} must be a map, not {kind_of_node(node)}.")
            return None
        self._check_keys(node, name, context)
        if self.evidence:
            _check_cite(node, context)
        required = (key for key, field in self.fields.items() if field.required)
        entries = dict.fromkeys((*node.entries, *required))  # all broken until shown to be good
        sure = isinstance(node.entries.get("confirmed"), Text)
        context.confirmed += sure
        for key, value in node.entries.items():
            if key in self.fields:
                entries[key] = value and self.fields[key].shape.check(value, f"'{key}'", context)
            elif self.rest:
                alone = Map({key: value}, {key: node.keys[key]}, node.place)
                entries |= self.rest.check(alone, name, context).entries
        context.confirmed -= sure
        for group in self.one_of:
            if sum(key in node for key in group) != 1:
                entries.update(dict.fromkeys(group))
        return Map(entries, node.keys, node.place)

    def _check_keys(self, node: Map, name: str, context: Context) -> None:
        meant = set(node.entries)  # what is there, and what a misspelt key stands for
        for key in node.entries:
            if key not in self.fields and not self.rest:
                legal = f"{name} takes {', '.join(self.fields)}"
                message = f"{quoted(key)} is not a key here; {legal}.{did_you_mean(key, self.fields)}"
                context.problems.add(node.keys[key], "unknown-key", message)
                meant.update(nearest(key, self.fields))
        if "same_as" in node and not getattr(node.entries["same_as"], "text", None):
            return  # what it should have supplied is not missing but unreadable
        # A record filled by `same_as` stands at the record it copies, so that a key missing
        # there is reported once.
        for key, field in self.fields.items():
            if field.required and key not in meant:
                context.problems.add(
                    node.place, "missing-key", f"{name} lacks the key '{key}': {field.help}."
                )
        for group in self.one_of:
            present = [key for key in group if key in node]
            if len(present) > 1 or meant.isdisjoint(group):
                place = node.keys[present[1]] if present else node.place
                given = f"it has {', '.join(present)}" if present else "it has none"
                context.problems.add(
                    place, "one-of", f"{name} takes exactly one of {', '.join(group)}; {given}."
                )

    def leaves(self, node: Map):
        for key, value in node.items():
            shape = self.fields[key].shape if key in self.fields else self.rest and self.rest.value
            if shape:
                yield from shape.leaves(value)

    def schema(self) -> dict:
        properties = {key: field.schema() for key, field in self.fields.items()}
        others = self.rest.value.schema() if self.rest else False
        schema = {"type": "object", "properties": properties, "additionalProperties": others}
        required = {"required": [key for key, field in self.fields.items() if field.required]}
        if "same_as" in self.fields:
            required = {"anyOf": [{"required": ["same_as"]}, required]}
        groups = [{"oneOf": [{"required": [key]} for key in group]} for group in self.one_of]
        return schema | required | ({"allOf": groups} if groups else {})


@dataclass(frozen=True)
class Either:
    """A scalar, or a map that holds it under `value` with more to say."""

    scalar: Scalar
    record: Record

    def check(self, node: Node, name: str, context: Context) -> Node | None:
        return (self.scalar if isinstance(node, Text) else self.record).check(node, name, context)

    def leaves(self, node: Node):
        yield from (self.scalar if isinstance(node, Text) else self.record).leaves(node)

    def schema(self) -> dict:
        return {"anyOf": [self.scalar.schema(), self.record.schema()]}


Shape = Scalar | ListOf | MapOf | Record | Either


def _check_cite(node: Map, context: Context) -> None:
    grade = node.entries.get("evidence")
    if isinstance(grade, Text) and grade.text in ("standard", "published") and "cite" not in node:
        message = (
            f"evidence '{grade.text}' needs `cite:` with an id from sources.yaml; without one it is 'from "
            "memory'."
        )
        context.problems.add(grade.place, "missing-cite", message)
