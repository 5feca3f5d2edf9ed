"""What a manual can answer about a port: which numbers of its record each answer sets."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from .asked import Ask, Fed, Question
from .context import Context
from .kinds import LIMITED, PARTS, RESERVED
from .networks import Scope, Value
from .nodes import Map, Text
from .quantity import UNKNOWN, parse
from .records import Evidence
from .scalars import number

_PART = {"knee": "nominal", "series": "nominal", "match": "high"}
_SOURCE = {"nominal": "nominal", "maximum": "high", "least_load": "high"}
_LISTENER = {"sensitivity": "nominal", "maximum": "low"}
_NEED = {"volts": ("least", "high"), "full": ("full", "high")}


def question(id: str, tree: Map) -> Question:
    least, most = (parse(tree.text(key)).nominal if key in tree else None for key in ("least", "most"))
    return Question(
        id,
        tree.text("asks"),
        tree.text("unit"),
        least,
        most,
        tree.text("level") == "yes",
        tree.text("beyond", ""),
    )


def fed(template: Map, prefix: str = "") -> dict[str, tuple[Fed, ...]]:
    """Of a template: parameter or quantity as written -> the numbers of the record that come from it."""
    found = defaultdict(list)

    def feeds(tree: Map, key: str, *number: str) -> None:
        if isinstance(tree.get(key), Text) and tree[key].text:
            found[tree[key].text].append(Fed(*number))

    for id, part in template.map("parts").items():
        feeds(part, next(kind for kind in PARTS if kind in part), "parts", prefix + id, "value", "whole")
        for key, take in _PART.items():
            feeds(part, key, "parts", prefix + id, key, take)
    for id, limit in template.map("limits").items():
        settled = next(key for key in LIMITED if key in limit)
        seconds = "seconds" if "seconds" in limit else settled
        brief = "momentary" if "momentary" in limit else seconds
        for key, field in ((settled, "settled"), (seconds, "seconds"), (brief, "momentary")):
            feeds(limit, key, "limits", prefix + id, field, "low")
    for kind, fields in (("sources", _SOURCE), ("listeners", _LISTENER)):
        for id, one in template.map(kind).items():
            for key, take in fields.items():
                feeds(one, key, kind, prefix + id, key, take)
    for id, need in template.map("needs").items():
        for key, (field, take) in _NEED.items():
            feeds(need, key, "needs", prefix + id, field, take)
    return {name: tuple(numbers) for name, numbers in found.items()}


def asks(tree: Map, scopes: Mapping[str, Scope], context: Context) -> tuple[Ask, ...]:
    """Of a port, `scopes` by instance. Instances of one template are asked about together: a manual has one
    answer for left and right."""
    alike = defaultdict(list)
    for name, instance in tree["circuit"].items():
        alike[instance.text("use"), _given(instance)].append(name)
    return tuple(
        _ask(key, ask, names, context.trees["circuits"][use], scopes[names[0]])
        for (use, _), names in alike.items()
        for key, ask in context.trees["circuits"][use].map("asks").items()
    )


def _given(instance: Map) -> frozenset[str]:
    """What an instance says of its parameters, to tell whether another says the same."""
    values = {
        key: node.text if isinstance(node, Text) else node.text("value")
        for key, node in instance.items()
        if key not in RESERVED
    }
    return frozenset(f"{key}: {value}" for key, value in values.items())


def _ask(key: str, ask: Map, instances: list[str], template: Map, scope: Scope) -> Ask:
    answers = {
        answer: {name: value.text for name, value in ask[answer].items()}
        for answer in ("yes", "no")
        if answer in ask
    }
    set_by = ask.texts("sets") or tuple(dict.fromkeys(name for values in answers.values() for name in values))
    numbers = {instance: fed(template, f"{instance}.") for instance in instances}
    value = scope.values[set_by[0]]
    times = number(ask.text("times", "1"))
    return Ask(
        id=f"{instances[0]}.{key}",
        question=key,
        instances=tuple(instances),
        feeds={
            name: tuple(one for instance in instances for one in numbers[instance].get(name, ()))
            for name in set_by
        },
        answers=answers,
        times=times,
        value=_printed(value, times) if "sets" in ask else "",
        spread=_spread(value),
        evidence=_evidence(template, set_by[0], value, scope.evidence),
    )


def _printed(value: Value, times: float) -> str:
    """The catalogue's value as a manual would print it."""
    if value.quantity is None:
        return UNKNOWN
    return value.quantity.text if times == 1 else f"{value.quantity.nominal / times:g} {value.quantity.unit}"


def _spread(value: Value) -> str:
    """A tolerance goes with a part, whatever its value; a range is what different devices have,
    and one device has one."""
    found = value.quantity
    if found is None or not ("+-" in found.text or "\u00b1" in found.text) or not found.nominal:
        return ""
    return f"{round(100 * (found.high - found.nominal) / abs(found.nominal), 4):g} %"


def _evidence(template: Map, name: str, value: Value, home: Evidence) -> Evidence:
    """How a limit is known says how its number is known, unless the port gave it."""
    limits = [
        limit
        for _, limit in template.map("limits").items()
        if any(key in limit and limit.text(key) == name for key in LIMITED)
    ]
    if value.given or not limits or "evidence" not in limits[0]:
        return value.evidence
    limit = limits[0]
    return Evidence(
        limit.text("evidence"), limit.texts("cite"), limit.text("checked") or home.checked, limit.text("note")
    )
