"""The keys of a connector's file and of an assignment's, declared."""

from __future__ import annotations

from . import kinds_outside
from .kinds_shared import CONTACT_ID, ID, SEVERAL, WORDS, evidence_keys, file_of, need
from .scalars import Amount, Choice, Number, Ref
from .shapes import Field, ListOf, MapOf, Record

HALVES = {
    "concentric": ("plug", "jack"),
    "coaxial": ("plug", "jack"),
    "circular": ("male", "female"),
    "rectangular": ("male", "female"),
}
SIZES = ("diameter", "length", "width", "height", "pin", "shell", "depth", "hole")
SEEN = {  # what one looks for to tell a connector by eye: closed lists, so that a page can ask
    "latch": ("none", "push-tab", "thread", "screws", "bayonet", "push-pull", "twist"),
    "keyway": ("none", "slot", "ridge", "notch", "outline"),
    "shell": ("metal", "plastic", "either", "none"),
    "outline": ("rod", "round", "D", "rectangular", "cut corners", "oval", "wires"),
}


def _length(positive: bool = False) -> Amount:
    return Amount("m", positive=positive, negative=not positive)


_half = Record(
    {
        "segments": Field(
            MapOf(_length(), CONTACT_ID), "where each contact lies along the barrel, from the tip end"
        ),
        "springs": Field(
            MapOf(
                Record(
                    {
                        "at": need(
                            _length(), "where the spring may touch, from the tip end of a plug that is home"
                        ),
                        "width": need(_length(positive=True), "how wide the touching part is"),
                    }
                ),
                CONTACT_ID,
            ),
            "where each spring touches",
        ),
        "forward": Field(
            MapOf(_length(), CONTACT_ID), "how far each contact stands forward; the largest makes first"
        ),
        **{size: Field(_length(positive=True), f"{size} of this half") for size in SIZES},
    }
)
CONNECTOR = file_of(
    "connectors",
    {
        "shape": need(Choice(tuple(HALVES)), "how it is built"),
        "bore": Field(ID, "any plug goes into any jack of the same bore; the connector's own id if left out"),
        "contacts": need(ListOf(CONTACT_ID, least=1), "names of the contacts, from the tip back"),
        **{half: Field(_half, f"the {half}") for half in ("plug", "jack", "male", "female")},
        "face": Field(
            MapOf(
                Record(
                    {
                        "angle": Field(Amount("deg"), "clock degrees, 0 at the top, on a round face"),
                        "radius": Field(_length(), "from the centre, on a round face"),
                        "x": Field(Amount("m", negative=True), "right of the middle, on a rectangular face"),
                        "y": Field(Amount("m", negative=True), "below the middle, on a rectangular face"),
                    },
                    one_of=(("angle", "x"), ("radius", "y")),
                ),
                CONTACT_ID,
            ),
            "the mating face of the male half",
        ),
        "key": Field(Amount("deg"), "where the key stands on the male face"),
        "light": Field(ListOf(CONTACT_ID, least=1, one=True), "contacts that pass light and no current"),
        "takes": Field(ListOf(Ref("connectors"), one=True), "other families whose plugs go in too"),
        "turned": Field(
            MapOf(CONTACT_ID, CONTACT_ID),
            "where a plug goes in two ways round: receptacle contact: plug contact it meets then",
        ),
        "looks": Field(
            Record(
                {
                    "diameter": Field(
                        _length(positive=True),
                        "of the part one sees, across its longest side if it is not round",
                    ),
                    "contacts": Field(Number(above=0), "how many contacts one counts"),
                    "rings": Field(Number(above=-1), "how many insulating rings one counts on the rod"),
                    **{key: Field(Choice(options), f"its {key}") for key, options in SEEN.items()},
                }
            ),
            "what one sees, for telling it by a few questions",
        ),
        "recognise": Field(WORDS, "how to tell it by eye"),
        "also_called": Field(SEVERAL, "other names"),
        **kinds_outside.fields(evidence_keys()),
    },
)
ASSIGNMENT = file_of(
    "assignments",
    {
        "connector": need(Ref("connectors"), "the connector"),
        "carries": need(MapOf(ID, CONTACT_ID, least=1), "contact: role"),
        "used_for": Field(WORDS, "one sentence"),
        "recognise": Field(WORDS, "how to tell it from its twins: label, habit or meter"),
        "mistaken_for": Field(MapOf(WORDS, Ref("assignments")), "assignment: what goes wrong"),
        "also_called": Field(SEVERAL, "other names"),
    },
)
