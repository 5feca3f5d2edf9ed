"""Records as columns: every name of a field said once, and what many records share beside each other,
where compression finds it.

The browser's reader is assets/js/data/columns.js. A list of values becomes one of
    [0, values]                      as they are
    [1, value, count]                one value again and again
    [2, distinct values, places]     few values, many times
    [3, fields, columns, count]      maps with the same fields in the same order
    [4, lengths, column]             lists, their items in one column
    [5, column of keys, column of values, lengths]   other maps
    [6, kinds, columns]              mixed: 0 text, numbers and such, 1 map, 2 list, each kind in a column of its own
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

FEW = 0.5  # share of distinct values up to which places pay
MANY = 8  # maps under more keys than this are taken for records by id, not for the fields of one


def packed(value: Any) -> list:
    """A JSON-ready value as a column of one."""
    return _column([value])


def _column(values: Sequence[Any]) -> list:
    kinds = [1 if isinstance(value, dict) else 2 if isinstance(value, list) else 0 for value in values]
    if len(set(kinds)) > 1:
        return [
            6,
            kinds,
            [_column([value for value, kind in zip(values, kinds) if kind == wanted]) for wanted in range(3)],
        ]
    if not kinds or kinds[0] == 0:
        return _plain(values)
    distinct = list({json.dumps(value): value for value in values}.values())
    if len(values) > 1 and len(distinct) <= FEW * len(values):
        place = {json.dumps(value): at for at, value in enumerate(distinct)}
        return [2, _column(distinct), [place[json.dumps(value)] for value in values]]
    if kinds[0] == 2:
        return [4, [len(value) for value in values], _column([item for value in values for item in value])]
    fields = list(values[0])
    records = (
        len(values) == 1
        and len(fields) > MANY
        and all(isinstance(value, dict) for value in values[0].values())
    )
    if not records and all(list(value) == fields for value in values):
        return [3, fields, [_column([value[field] for value in values]) for field in fields], len(values)]
    return [
        5,
        _column([key for value in values for key in value]),
        _column([item for value in values for item in value.values()]),
        [len(value) for value in values],
    ]


def _plain(values: Sequence[Any]) -> list:
    distinct = list(dict.fromkeys((type(value), value) for value in values))  # True is not 1 here
    if len(distinct) == 1 and len(values) > 1:
        return [1, values[0], len(values)]
    if len(values) > 8 and len(distinct) <= FEW * len(values):
        place = {key: at for at, key in enumerate(distinct)}
        return [2, [0, [value for _, value in distinct]], [place[type(value), value] for value in values]]
    return [0, list(values)]
