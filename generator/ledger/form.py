"""The form readings are kept in: of each its two numbers, and the number of an outline that has all else, for
few outlines are different.

The digest of readings sees this module too: what was kept in another form is not known.
"""

from __future__ import annotations

import json
import zlib
from array import array
from collections.abc import Callable, Sequence
from itertools import islice
from math import isnan, nan

from generator.catalogue.records import Evidence
from generator.engine.readings import Named, Reading

NUMBER, VALUE = array("I").itemsize, array("d").itemsize

Written = Sequence[Reading] | str  # the readings of one way of plugging, or why it could not be worked out
Flat = list[tuple[str, float, float]]  # the same as outline, value and limit, NaN for none
Outline = list | str  # as JSON has it


class Damaged(Exception):
    """What was kept cannot be read."""


def flat(written: Written) -> Flat:
    """The readings of a way, to be packed."""
    if isinstance(written, str):
        return [(json.dumps(written), 0.0, nan)]
    return [(_outline(one), one.value, nan if one.limit is None else one.limit) for one in written]


def _outline(reading: Reading) -> str:
    """All of a reading but its two numbers. How it was found (`at`, `terms`) is told by solving anew."""
    words = {
        name: [word.place, word.channel] if isinstance(word, Named) else word
        for name, word in reading.words.items()
    }
    known = reading.evidence and [reading.evidence.grade, reading.evidence.cite]
    return json.dumps(
        [
            reading.quantity,
            dict(reading.flags),
            reading.setting,
            reading.subject,
            reading.where,
            reading.unit,
            reading.state,
            known,
            words,
        ]
    )


def packed(ways: Sequence[Flat], number: Callable[[str], int]) -> bytes:
    """The readings of all ways of a pairing; `number` gives an outline its number."""
    every = [one for way in ways for one in way]
    head = array("I", [len(ways), *map(len, ways), *(number(outline) for outline, _, _ in every)])
    return zlib.compress(
        b"".join((head.tobytes(), *(array("d", column).tobytes() for column in list(zip(*every))[1:])))
    )


def parted(kept: bytes) -> tuple[array, bytes, bytes, bytes]:
    """How many readings each way has, then of all in turn the numbers of outlines, the values and the
    limits. Raises Damaged."""
    told = unzipped(kept)
    (ways,) = array("I", told[:NUMBER])
    first = NUMBER * (1 + ways)
    counts = array("I", told[NUMBER:first])
    second = first + NUMBER * sum(counts)
    third = second + VALUE * sum(counts)
    return counts, told[first:second], told[second:third], told[third:]


def unpacked(kept: bytes, outline: Callable[[int], Outline]) -> list[Written]:
    """The readings of all ways of a pairing; `outline` has the outline of a number. Raises Damaged."""
    counts, numbers, values, limits = parted(kept)
    every = zip(map(outline, array("I", numbers)), array("d", values), array("d", limits))
    ways = [list(islice(every, count)) for count in counts]
    return [
        way[0][0] if way and isinstance(way[0][0], str) else [_restored(*one) for one in way] for way in ways
    ]


def _restored(outline: list, value: float, limit: float) -> Reading:
    quantity, flags, setting, subject, where, unit, state, known, words = outline
    return Reading(
        quantity,
        subject,
        where,
        value,
        unit,
        state,
        setting,
        None if isnan(limit) else limit,
        Evidence(known[0], tuple(known[1])) if known else None,
        {name: Named(*word) if isinstance(word, list) else word for name, word in words.items()},
        flags,
    )


def outlined(kept: bytes) -> Outline:
    """An outline as it is kept, zipped. Raises Damaged."""
    return json.loads(unzipped(kept))


def unzipped(kept: bytes) -> bytes:
    """What is zipped has a sum in it that tells whether all is as it was written. Raises Damaged."""
    try:
        return zlib.decompress(kept)
    except (zlib.error, TypeError) as fault:
        raise Damaged(str(fault)) from None
