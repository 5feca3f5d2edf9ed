"""The keys of a connector's file that tell what it looks like from outside, declared."""

from __future__ import annotations

from collections.abc import Mapping

from .outside import HELD, KEYS, MARKS, MOUNTS, PIECES, SEEN_FROM
from .scalars import Amount, Choice, Ref
from .shapes import Either, Field, ListOf, Record


def fields(graded: Mapping[str, Field]) -> dict[str, Field]:
    """The keys of a connector's file that are declared here. `graded` are the keys every fact
    takes with its evidence."""
    length = Amount("m", positive=True)
    piece = Record(
        {
            "piece": Field(Choice(tuple(PIECES)), "what it is", required=True),
            "long": Field(length, "how long it is; a barrel takes its length from the segments"),
            "wide": Field(length, "how wide it is in front; as its half, if left out"),
            "back": Field(length, "how wide it is at its other end, where it tapers"),
            "marks": Field(ListOf(Choice(tuple(MARKS)), one=True), "what one finds on it"),
        }
    )
    mounts = Record(
        {
            mount: Field(ListOf(piece, least=1), f"its side view on a {mount}, from the mating end")
            for mount in MOUNTS
        }
    )
    halves = ("plug", "jack", "male", "female")
    body = Record(
        {half: Field(mounts, f"the {half}") for half in halves}
        | {"seen_from": Field(Choice(SEEN_FROM), "where one looks from")}
        | graded,
        evidence=True,
    )
    usual = Record(
        {
            "first": Field(Ref("assignments"), "the one meant where nothing is said", required=True),
            "then": Field(ListOf(Ref("assignments"), one=True), "others one often meets, in order"),
            "seldom": Field(ListOf(Ref("assignments"), one=True), "those one hardly ever meets"),
            **graded,
        },
        evidence=True,
    )
    return {
        "body": Field(
            Either(Ref("connectors"), body),
            "its side view, or the connector that looks the same from the side",
            required=True,
        ),
        "held": Field(Choice(HELD), "which way up its face is shown", required=True),
        "keyed": Field(
            Record({half: Field(Choice(KEYS), f"what the key is on the {half}") for half in halves}),
            "what its key is",
        ),
        "usual": Field(usual, "which assignments one meets first"),
    }
