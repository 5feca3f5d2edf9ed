"""Connectors: halves fit the shape, contacts exist, segments and springs lie where they can work."""

from __future__ import annotations

from ..context import Context
from ..kinds import HALVES
from ..nodes import Many, Map, Text
from ..problems import quoted
from ..quantity import parse
from .common import check_contact, check_repeated

_NEEDED = {  # shape -> what it cannot be mated without: owner, key, help
    "concentric": (
        ("'plug'", "segments", "where each contact lies along the barrel"),
        ("'jack'", "springs", "where each spring touches"),
    ),
    "circular": (("this connector", "face", "where the contacts stand on the male face"),),
    "rectangular": (("this connector", "face", "where the contacts stand on the male face"),),
    "coaxial": (),
}
_PLACED = {"circular": ("angle", "radius"), "rectangular": ("x", "y")}


def check_halves(id: str, tree: Map, context: Context) -> None:
    shape = tree["shape"].text
    legal = HALVES[shape]
    for half in ("plug", "jack", "male", "female"):
        if half in tree and half not in legal:
            message = f"a {shape} connector has no half '{half}'; its halves are {' and '.join(legal)}."
            context.problems.add(tree.keys[half], "wrong-half", message)
    if not any(half in tree for half in legal):
        message = f"this connector lacks its halves: describe {' or '.join(legal)}, or both."
        context.problems.add(tree.place, "missing-key", message)
    owners = {"this connector": tree} | {f"'{half}'": tree[half] for half in legal if half in tree}
    for name, key, help in _NEEDED[shape]:
        if name in owners and key not in owners[name]:
            context.problems.add(owners[name].place, "missing-key", f"{name} lacks the key '{key}': {help}.")


def check_contacts(id: str, tree: Map, context: Context) -> None:
    """Every map keyed by contact names contacts of this connector; faces, segments and
    springs name all of them."""
    check_repeated(tree.whole("contacts"), "contact", context)
    contacts = tree["contacts"].texts()
    tables = [(tree, "face")] + [
        (half, key) for half in _halves(tree) for key in ("segments", "springs", "forward")
    ]
    for owner, key in tables:
        known = [
            check_contact(*item, "this connector", tree, context) for item in owner.map(key).keys.items()
        ]
        missing = [contact for contact in contacts if contact not in owner.map(key)]
        if key in owner and key != "forward" and missing and all(known):
            message = f"'{key}' says nothing of {', '.join(missing)}; every contact needs its place."
            context.problems.add(owner.keys[key], "missing-contact", message)


def check_face(id: str, tree: Map, context: Context) -> None:
    """Round faces give angle and radius, rectangular ones x and y."""
    wanted = _PLACED.get(tree["shape"].text, ())
    for contact, spot in tree.map("face").items():
        for key, place in spot.keys.items():
            if wanted and key not in wanted:
                message = (
                    f"contact '{contact}' has {quoted(key)}; on a {tree['shape'].text} face contacts stand "
                    f"at {' and '.join(wanted)}."
                )
                context.problems.add(place, "wrong-face", message)


def check_turned(id: str, tree: Map, context: Context) -> None:
    """Both sides of `turned` are contacts of this connector."""
    turned = tree.map("turned")
    for contact, place in turned.keys.items():
        check_contact(contact, place, "this connector", tree, context)
        other = turned.entries[contact]
        if other:
            check_contact(other.text, other.place, "this connector", tree, context)


def check_segments(id: str, tree: Map, context: Context) -> None:
    segments = tree.map("plug").map("segments")
    known = [contact for contact in tree.whole("contacts").texts() if segments.entries.get(contact)]
    spans = {contact: parse(segments[contact].text, "m") for contact in known}
    for i, later in enumerate(known):
        for earlier in known[:i]:
            before, after = spans[earlier], spans[later]
            if before.low < after.high and after.low < before.high:
                message = f"segment '{later}' ({after.text}) overlaps segment '{earlier}' ({before.text})."
                context.problems.add(
                    segments[later].place, "segments-overlap", message, segments[earlier].place
                )
            elif after.low < before.low:
                order = "contacts are listed from the tip back"
                message = (
                    f"segment '{later}' ({after.text}) lies before '{earlier}' ({before.text}); {order}."
                )
                context.problems.add(
                    segments[later].place, "segments-unordered", message, tree.keys["contacts"]
                )


def check_springs(id: str, tree: Map, context: Context) -> None:
    """A jack of this family must work with the plug of this family, wherever within `at` its
    maker put the spring."""
    segments, springs = tree.map("plug").map("segments"), tree.map("jack").map("springs")
    for contact, spring in springs.items():
        if contact not in segments or not spring.sound:
            continue
        at, width = parse(spring["at"].text, "m"), parse(spring["width"].text, "m")
        segment = parse(segments[contact].text, "m")
        near, far = at.low - width.high / 2, at.high + width.high / 2
        if near < segment.low - 1e-9 or far > segment.high + 1e-9:
            message = (
                f"spring '{contact}' reaches {1e3 * near:.4g}..{1e3 * far:.4g} mm with its width, but "
                f"segment '{contact}' of the plug is {segment.text}."
            )
            context.problems.add(spring["at"].place, "spring-off-segment", message, segments[contact].place)


def check_outside(id: str, tree: Map, context: Context) -> None:
    """Every half has a side view; a key has its form on every half; the assignments met first are this
    connector's own, each once."""
    halves = [half for half in HALVES[tree["shape"].text] if half in tree]
    _check_body(id, tree, halves, context)
    keyed = tree.map("keyed")
    if "key" in tree and (lacking := [half for half in halves if half not in keyed]):
        message = (
            f"it has a key, but 'keyed' does not say what the key is on the {' and the '.join(lacking)}."
        )
        context.problems.add(tree.keys["key"], "no-key-form", message)
    if "key" not in tree and tree.map("looks").text("keyway", "none") in ("slot", "ridge", "notch"):
        message = (
            f"its keyway is a {tree['looks'].text('keyway')}, but 'key' does not say where it stands on the "
            "male face."
        )
        context.problems.add(tree["looks"].keys["keyway"], "no-key", message)
    usual = tree.map("usual")
    if "usual" in tree and tree.keys["usual"].path != context.ids["connectors"][id].path:
        return  # it came by `same_as` and is the other's own affair
    named = [
        *([usual["first"]] if "first" in usual else []),
        *(one for key in ("then", "seldom") if key in usual for one in usual[key]),
    ]
    for one in named:
        if context.tree("assignments", one)["connector"].text != id:
            context.problems.add(
                one.place, "not-its-assignment", f"'{one.text}' is an assignment of another connector."
            )
    check_repeated(Many(tuple(named), tree.place), "assignment", context)


def _check_body(id: str, tree: Map, halves: list[str], context: Context) -> None:
    body, owner = tree["body"], tree
    if isinstance(body, Text):
        owner = context.tree("connectors", body)
        if isinstance(owner["body"], Text):
            message = f"'{body.text}' takes its body from another one itself; name '{owner['body'].text}'."
            context.problems.add(body.place, "borrowed-body", message, owner["body"].place)
            return
        body = owner["body"]
    lacking = [half for half in halves if not body.map(half).entries]
    if lacking:
        message = f"'body' shows no side view of the {' and the '.join(lacking)}."
        context.problems.add(tree.keys["body"], "no-silhouette", message)


def _halves(tree: Map) -> list[Map]:
    return [tree[half] for half in ("plug", "jack", "male", "female") if tree.entries.get(half)]


CHECKS = (
    check_halves,
    check_contacts,
    check_face,
    check_turned,
    check_segments,
    check_springs,
    check_outside,
)
