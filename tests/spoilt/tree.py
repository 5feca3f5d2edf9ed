"""Ways to spoil a file as a tree: another type, another value, another key, another reference, and never a
syntax error. Each changes one node."""

from __future__ import annotations

import re
from copy import deepcopy
from dataclasses import dataclass
from random import Random

import yaml

_LOADER, _DUMPER = getattr(yaml, "CBaseLoader", yaml.BaseLoader), getattr(yaml, "CDumper", yaml.Dumper)
_TEXT, _LIST, _MAP = (f"tag:yaml.org,2002:{kind}" for kind in ("str", "seq", "map"))
UNITS = (
    "V",
    "mV",
    "uV",
    "kV",
    "MV",
    "A",
    "mA",
    "W",
    "ohm",
    "kohm",
    "Mohm",
    "F",
    "uF",
    "pF",
    "H",
    "m",
    "mm",
    "km",
    "deg",
    "%",
    "ohm/m",
    "pF/m",
    "dB",
    "dBu",
    "dBV",
    "",
    "furlong",
    "/",
    "kdBu",
    "m%",
    "Pa",
)
NONSENSE = (
    "",
    " ",
    "~",
    "null",
    "yes",
    "no",
    "unknown",
    "Unknown",
    "0",
    "-1",
    "1/0",
    "1/2200",
    "0 V",
    "0 A",
    "0 ohm",
    "0 m",
    "-5 V",
    "1e999999999 V",
    "1e-999999999 V",
    "1e-320 F",
    "1..1e999999999 V",
    "1e308 V",
    "400 V +-1e3 %",
    "1 V +- 99999999999 %",
    "5 V..3 V",
    "5..3 V",
    "3..5 V +-1 %",
    "0..0 mm",
    "48 V +-4 V +-4 V",
    "48 V +-4 A",
    "20 dBu +-3 dB",
    "20 dBu +-3 V",
    "1e9 dBu",
    "-1e9 dBu",
    "0 dBu +-100 %",
    "5 m +-1 mm",
    "0 mV +-1 V",
    "1 pV +-1 MV",
    "1 V ± 1 %",
    "1  \t V",
    "NaN V",
    "inf V",
    "١ V",
    "１ V",
    "2026-02-30",
    "9999-12-31",
    "2026-W48-3",
    "20261125",
    "0000-00-00",
    "same_as",
    "main",
    "chassis",
    "screen",
    "use",
    "a" * 201,
    "so " * 400,
    "it isn't so, isn't it? " * 40,
    "a-" * 300 + "b",
    "x\ny\n" * 150,
    "\u202e",
    "é",
    "tip.tip",
    "a.b.c",
    ".",
    "a.",
    ".a",
    "standard",
    "your manual",
    "1e5",
    "007",
)


@dataclass(frozen=True)
class Pool:
    """What other values there are: nodes, keys, ids of every kind of file and names of records;
    `id` is the file's own."""

    id: str
    nodes: tuple[yaml.Node, ...]
    keys: tuple[str, ...]
    ids: tuple[str, ...]


def scalar(text: str) -> yaml.ScalarNode:
    return yaml.ScalarNode(_TEXT, text)


def every(root: yaml.Node) -> list[yaml.Node]:
    """Every node that is a value, once, though it may stand in several places or in itself."""
    found, todo = {}, [root]
    while todo:
        node = todo.pop()
        if id(node) not in found:
            found[id(node)] = node
            if not isinstance(node, yaml.ScalarNode):
                todo += [entry[1] if isinstance(entry, tuple) else entry for entry in node.value]
    return list(found.values())


def keys(node: yaml.Node) -> set[str]:
    return {key.value for one in every(node) if isinstance(one, yaml.MappingNode) for key, _ in one.value}


def composed(text: str) -> yaml.Node:
    """The tree, without the places in the text, which no copy needs."""
    root = yaml.compose(text, Loader=_LOADER)
    for node in [
        root,
        *(key for node in every(root) if isinstance(node, yaml.MappingNode) for key, _ in node.value),
        *every(root),
    ]:
        node.start_mark = node.end_mark = None
    return root


def _into(node: yaml.Node, other: yaml.Node) -> None:
    """Makes the node the other, where it stands; the other must be nobody else's."""
    node.__class__, node.__dict__ = other.__class__, other.__dict__


def another_type(node: yaml.Node, pool: Pool, chance: Random) -> None:
    same = type(node)(node.tag, node.value)
    _into(
        node,
        chance.choice(
            (
                scalar(""),
                scalar("x"),
                yaml.SequenceNode(_LIST, []),
                yaml.MappingNode(_MAP, []),
                yaml.SequenceNode(_LIST, [same]),
                yaml.SequenceNode(_LIST, [scalar("x"), yaml.MappingNode(_MAP, [])]),
                yaml.MappingNode(_MAP, [(scalar("value"), same)]),
                yaml.MappingNode(_MAP, [(scalar("a"), yaml.SequenceNode(_LIST, [scalar("b")]))]),
                yaml.MappingNode(_MAP, [(yaml.SequenceNode(_LIST, [scalar("a")]), scalar("b"))]),
            )
        ),
    )


def another_value(node: yaml.Node, pool: Pool, chance: Random) -> None:
    _into(node, deepcopy(chance.choice(pool.nodes)))


def nonsense(node: yaml.Node, pool: Pool, chance: Random) -> None:
    _into(node, scalar(chance.choice(NONSENSE)))


def another_key(node: yaml.Node, pool: Pool, chance: Random) -> None:
    if isinstance(node, yaml.MappingNode) and node.value:
        at = chance.randrange(len(node.value))
        old = str(node.value[at][0].value)
        new = chance.choice(
            (
                chance.choice(pool.keys),
                chance.choice(pool.ids),
                chance.choice(NONSENSE),
                "same_as",
                old[1:],
                f"{old}s",
                old.upper(),
                old.replace("_", "-"),
            )
        )
        node.value[at] = scalar(new), node.value[at][1]


def key_gone(node: yaml.Node, pool: Pool, chance: Random) -> None:
    if not isinstance(node, yaml.ScalarNode) and node.value:
        del node.value[chance.randrange(len(node.value))]


def entry_twice(node: yaml.Node, pool: Pool, chance: Random) -> None:
    """An item or a key a second time: the same node, so that it is written as an alias, or a copy."""
    if not isinstance(node, yaml.ScalarNode) and node.value:
        again = chance.choice(node.value)
        node.value.insert(
            chance.randrange(len(node.value) + 1), again if chance.random() < 0.3 else deepcopy(again)
        )


def key_put_in(node: yaml.Node, pool: Pool, chance: Random) -> None:
    if isinstance(node, yaml.MappingNode):
        node.value.insert(
            chance.randrange(len(node.value) + 1),
            (scalar(chance.choice(pool.keys)), deepcopy(chance.choice(pool.nodes))),
        )


def item_put_in(node: yaml.Node, pool: Pool, chance: Random) -> None:
    if isinstance(node, yaml.SequenceNode):
        node.value.insert(chance.randrange(len(node.value) + 1), deepcopy(chance.choice(pool.nodes)))


def emptied(node: yaml.Node, pool: Pool, chance: Random) -> None:
    if not isinstance(node, yaml.ScalarNode):
        node.value = []


def many(node: yaml.Node, pool: Pool, chance: Random) -> None:
    """Fifty times as many entries, of other names where they are keys."""
    if isinstance(node, yaml.SequenceNode):
        node.value = [deepcopy(one) for one in node.value] * 50
    elif isinstance(node, yaml.MappingNode) and len(every(node)) < 60:
        node.value += [
            (scalar(f"{key.value}{number}"), deepcopy(value))
            for key, value in node.value
            for number in range(50)
        ]


def shuffled(node: yaml.Node, pool: Pool, chance: Random) -> None:
    if not isinstance(node, yaml.ScalarNode):
        chance.shuffle(node.value)


def within_itself(node: yaml.Node, pool: Pool, chance: Random) -> None:
    if isinstance(node, yaml.SequenceNode):
        node.value.append(node)
    elif isinstance(node, yaml.MappingNode):
        node.value.append((scalar(chance.choice(pool.keys)), node))


def reference(node: yaml.Node, pool: Pool, chance: Random) -> None:
    if isinstance(node, yaml.ScalarNode):
        other = chance.choice(pool.ids)
        _into(
            node,
            scalar(
                chance.choice((other, other, pool.id, f"no-{other}", other[:-1], other.upper(), f"{other} "))
            ),
        )


def same_as(node: yaml.Node, pool: Pool, chance: Random) -> None:
    """`same_as` in any map, whether it belongs there or not: for itself, another record, a key
    beside it, nothing, a list."""
    if isinstance(node, yaml.MappingNode):
        beside = [key.value for key, _ in node.value if isinstance(key, yaml.ScalarNode)]
        target = scalar(
            chance.choice(
                (
                    pool.id,
                    *chance.sample(pool.ids, 2),
                    chance.choice(beside or ["x"]),
                    "nowhere",
                    "",
                    "so " * 100,
                )
            )
        )
        node.value = (
            [pair for pair in node.value if pair[0].value != "same_as"]
            if chance.random() < 0.8
            else node.value
        )
        given = chance.choice(
            (target, target, target, yaml.SequenceNode(_LIST, [target]), yaml.MappingNode(_MAP, []))
        )
        node.value.append((scalar("same_as"), given))


def quantity(node: yaml.Node, pool: Pool, chance: Random) -> None:
    """A number scaled, its sign turned, its unit another one."""
    if isinstance(node, yaml.ScalarNode) and re.search(r"\d", node.value):
        text = node.value
        kind = chance.randrange(5)
        if kind == 0:
            text = re.sub(r"[A-Za-z%/]+$", chance.choice(UNITS), text)
        elif kind == 1:
            power = chance.choice((-30, -9, -6, -3, -1, 1, 3, 6, 9, 30, 300, 4000))
            text = re.sub(r"\d+(\.\d+)?", lambda one: f"{one[0]}e{power}", text, count=1)
        elif kind == 2:
            text = f"-{text}"
        elif kind == 3:
            text = re.sub(r"\d+(\.\d+)?", "0", text, count=chance.randrange(2))
        else:
            text = f"{text}{chance.choice(('..', ' +- ', ' ± ', '/', ' '))}{chance.choice(('1', '0', '9 %', text, '-1 V', ''))}"
        _into(node, scalar(text))


WAYS = (
    another_type,
    another_value,
    another_value,
    nonsense,
    nonsense,
    another_key,
    another_key,
    key_gone,
    key_gone,
    entry_twice,
    key_put_in,
    item_put_in,
    emptied,
    many,
    shuffled,
    within_itself,
    reference,
    reference,
    reference,
    same_as,
    quantity,
    quantity,
    quantity,
)
_FOR = {  # what a way can change; the others change anything
    yaml.MappingNode: (another_key, key_put_in, same_as),
    yaml.SequenceNode: (item_put_in,),
    yaml.ScalarNode: (reference, quantity),
    yaml.nodes.CollectionNode: (key_gone, entry_twice, emptied, many, shuffled, within_itself),
}


def spoilt(text: str, pool: Pool, chance: Random) -> tuple[str, list[str]]:
    """The file spoilt in one to three ways, and which."""
    root, told = composed(text), []
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        way = chance.choice(WAYS)
        wanted = next((kind for kind, ways in _FOR.items() if way in ways), yaml.Node)
        fit = [node for node in every(root) if isinstance(node, wanted)]
        if fit:
            told.append(way.__name__)
            way(chance.choice(fit), pool, chance)
    return yaml.serialize(
        root, Dumper=_DUMPER, allow_unicode=True, width=chance.choice((20, 80, 100_000))
    ), told
