"""Ports: half, assignment, and circuits whose roles and parameters fit."""

from __future__ import annotations

import re

from ..context import Context
from ..kinds import RESERVED
from ..nodes import Map, Place, Unusable, plain
from ..problems import not_one_of, quoted
from .circuits import CHASSIS, check_value, parameter_uses, value_of
from .common import check_half


def check_connector(id: str, tree: Map, context: Context) -> None:
    check_half(tree, context)


def check_assignment(id: str, tree: Map, context: Context) -> None:
    assignment = context.tree("assignments", tree["assignment"])
    theirs, ours = assignment["connector"].text, tree["connector"].text
    if theirs != ours:
        message = f"assignment '{tree['assignment'].text}' is for '{theirs}', but the port has '{ours}'."
        context.problems.add(
            tree["assignment"].place, "wrong-connector", message, assignment["connector"].place
        )


_CLAIM = re.compile(
    r"\b(order|contacts)\b[^.;:]*?\b(from memory|common practice|published|standard)\b", re.IGNORECASE
)
_FROM_A_PAGE = ("standard", "published")


def check_note(id: str, tree: Map, context: Context) -> None:
    """What the note says of the order, or of the contacts, is what the assignment says of itself:
    two pages show the two."""
    assignment = context.tree("assignments", tree["assignment"])
    note, evidence = tree.get("note"), assignment["evidence"]
    for what, grade in _CLAIM.findall(note.text if note else ""):
        if (grade.lower() in _FROM_A_PAGE) != (evidence.text in _FROM_A_PAGE):
            message = (
                f"the note calls the {what.lower()} '{grade.lower()}', "
                f"but assignment '{tree['assignment'].text}' is '{evidence.text}'."
            )
            context.problems.add(note.place, "note-against-assignment", message, evidence.place)


def check_instances(id: str, tree: Map, context: Context) -> None:
    for _, instance in tree["circuit"].items():
        for check in (_check_parameters, _check_roles):
            try:
                check(instance, context.tree("circuits", instance["use"]), tree, context)
            except Unusable:
                pass  # go on with the other instances


def _check_parameters(instance: Map, template: Map, tree: Map, context: Context) -> None:
    parameters, uses = template.map("parameters"), parameter_uses(template)
    circuit = instance["use"].text
    for name, value in instance.items():
        if name in RESERVED:
            continue
        if name not in parameters:
            message = not_one_of(name, f"a parameter of '{circuit}'", parameters.entries)
            context.problems.add(
                instance.keys[name], "unknown-parameter", message, context.ids["circuits"][circuit]
            )
        elif value.sound:
            check_value(name, value_of(value), uses.get(name, []), context)


def _check_roles(instance: Map, template: Map, tree: Map, context: Context) -> None:
    """Every role of the template leads to a role of the assignment (or the chassis), and no
    mapping is for nothing."""
    assignment = context.tree("assignments", tree["assignment"])
    offered = tuple(
        dict.fromkeys(assignment.whole("carries")[contact].text for contact in assignment["carries"].entries)
    )
    circuit, roles = instance["use"].text, instance.map("roles")
    wanted = template.whole("roles").texts()
    for role, target in roles.items():
        if role not in wanted:
            message = not_one_of(role, f"a role of '{circuit}'", wanted)
            context.problems.add(roles.keys[role], "unknown-role", message, template.keys["roles"])
        if target.text not in (*offered, CHASSIS):
            message = not_one_of(target.text, f"a role of '{tree['assignment'].text}'", offered)
            context.problems.add(target.place, "unknown-role", message, assignment.keys["carries"])
    for role in wanted:
        if role not in roles and role not in offered:
            what = (
                f"role '{role}' of '{circuit}' is no role of '{tree['assignment'].text}', which has "
                f"{', '.join(offered)}"
            )
            message = f"{what}; map it with `roles: {{{role}: ...}}`."
            context.problems.add(instance["use"].place, "unmapped-role", message, assignment.keys["carries"])


def check_channels(id: str, tree: Map, context: Context) -> None:
    """The template's channel `main` takes its instance's name; any other keeps its own."""
    for section in ("sources", "listeners"):
        taken: dict[str, Place] = {}
        for name, instance in tree["circuit"].items():
            template = context.tree("circuits", instance["use"])
            for key in template.map(section).entries:
                channel = name if key == "main" else key
                if channel in taken:
                    message = f"'{name}' brings a second channel {quoted(channel)} to this port's {section}."
                    context.problems.add(tree["circuit"].keys[name], "same-channel", message, taken[channel])
                taken.setdefault(channel, tree["circuit"].keys[name])


def check_supplies(id: str, tree: Map, context: Context) -> None:
    seen: dict[str, tuple[dict, Place]] = {}
    for name, instance in tree["circuit"].items():
        template = context.tree("circuits", instance["use"])
        for supply, declared in template.map("supplies").items():
            words = plain(declared)
            if supply in seen and seen[supply][0] != words:
                before = "differs from the one of the same id before it; one switch has one description"
                message = f"supply '{supply}' of '{name}' {before}."
                context.problems.add(tree["circuit"].keys[name], "supply-differs", message, seen[supply][1])
            seen.setdefault(supply, (words, tree["circuit"].keys[name]))


CHECKS = (check_connector, check_assignment, check_note, check_instances, check_channels, check_supplies)
