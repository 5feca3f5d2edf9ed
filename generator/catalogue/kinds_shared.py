"""What the keys of several kinds of file hold."""

from __future__ import annotations

from .records import GRADES, OWN
from .scalars import CONTACT, Amount, Choice, Date, Name, Ref, Words
from .shapes import Either, Field, ListOf, Record

SIGNALS = (
    "microphone",
    "line",
    "instrument",
    "headphone",
    "loudspeaker",
    "digital",
    "data",
    "contact",
    "midi",
    "video",
    "clock",
    "timecode",
    "intercom",
    "power",
)


def need(shape, help: str) -> Field:
    return Field(shape, help, required=True)


WORDS, ID, CONTACT_ID = Words(), Name(), Name(CONTACT)
SEVERAL = ListOf(WORDS, one=True)
YES_NO = Choice(("yes", "no"))


def evidence_keys(required: bool = False) -> dict[str, Field]:
    return {
        "evidence": Field(Choice((*GRADES, OWN), rule="bad-evidence"), "how this is known", required),
        "cite": Field(ListOf(Ref("sources"), least=1, one=True), "ids of sources in sources.yaml"),
        "checked": Field(Date(), "when it was last checked"),
        "confirmed": Field(WORDS, "why a value outside what is usual is right all the same"),
        "note": Field(WORDS, "a remark; for 'from memory', what would confirm it"),
    }


def file_of(kind: str, fields: dict[str, Field]) -> Record:
    same_as = Field(Ref(kind), "a record of the same kind that supplies all keys not written here")
    named = {"name": need(WORDS, "what people call it"), "same_as": same_as}
    return Record(named | fields | evidence_keys(required=True), evidence=True)


VALUE = Amount(None, negative=True, unknown=True)
PARAMETER = Either(VALUE, Record({"value": need(VALUE, "the quantity"), **evidence_keys()}, evidence=True))
