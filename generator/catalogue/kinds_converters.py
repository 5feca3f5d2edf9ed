"""The keys of a converter, and of what feeds a microphone on its way into one, declared."""

from __future__ import annotations

from .kinds_shared import WORDS, evidence_keys, need
from .scalars import Ref
from .shapes import Field, ListOf, Record

_PORTS = ListOf(Ref("ports"), least=1, one=True)

CONVERTER = Record(
    {
        "name": need(WORDS, "what one asks for, without an article"),
        "enters": need(_PORTS, "ports that its input is like; what they hear goes in"),
        "leaves": need(_PORTS, "ports that its output is like; what they send comes out"),
        "only_from": Field(_PORTS, "the outlets it is made for; left out, all that its input hears"),
        "only_to": Field(_PORTS, "the inlets it is made for; left out, all that hear its output"),
        "does": need(WORDS, "one sentence: what it does, and which way"),
        "power": need(WORDS, "one sentence: what it runs on"),
        "look_at": need(ListOf(WORDS, least=1, one=True), "what to look at before one takes it"),
        **evidence_keys(required=True),
    },
    evidence=True,
)

FEEDING = Record(
    {
        "outlets": need(_PORTS, "what is fed so, as 48 V phantom straight from an input is not for it"),
        "through": Field(ListOf(Ref("leads"), one=True), "leads and adapters in order; left out, none"),
        "into": need(_PORTS, "the inputs it is plugged into so"),
        **evidence_keys(required=True),
    },
    evidence=True,
)
