"""Circuit templates: roles, parameters, nodes, supplies, and what drives and listens."""

from __future__ import annotations

from collections import defaultdict

from ..context import Context
from ..deciding import deciding
from ..kinds import KINDS, RESERVED
from ..nodes import Map, Text, Unusable
from ..problems import a, did_you_mean, not_one_of
from ..scalars import Amount
from . import networks
from .common import check_repeated

CHASSIS = "chassis"


def parameter_uses(tree: Map) -> dict[str, list[tuple[Text, Amount]]]:
    """parameter -> where it is used and what is wanted there."""
    uses = defaultdict(list)
    for node, shape in KINDS["circuits"].leaves(tree):
        if isinstance(shape, Amount) and shape.names_parameter(node.text):
            uses[node.text].append((node, shape))
    return dict(uses)


def value_of(parameter) -> Text:
    """A parameter is a bare quantity or a map that holds it."""
    return parameter if isinstance(parameter, Text) else parameter["value"]


def check_value(name: str, value: Text, uses: list[tuple[Text, Amount]], context: Context) -> None:
    """Does a parameter's value suit every place where it is used?"""
    for node, shape in uses:
        fault = shape.fault(value.text, f"'{name}'", context)
        if fault:
            context.problems.add(value.place, *fault, node.place)
            return


def check_parameters(id: str, tree: Map, context: Context) -> None:
    parameters, uses = tree.map("parameters"), parameter_uses(tree)
    for name, found in uses.items():
        if name not in parameters:
            for node, _ in found:
                guess = did_you_mean(name, parameters.entries)
                message = f"'{name}' is neither a quantity nor a parameter of this circuit.{guess}"
                context.problems.add(node.place, "unknown-parameter", message)
    for name, parameter in parameters.items():
        if name in RESERVED:
            message = f"a parameter cannot be called '{name}': that is a key of an instance."
            context.problems.add(parameters.keys[name], "reserved-name", message)
        check_value(name, value_of(parameter), uses.get(name, []), context)


def check_unused(id: str, tree: Map, context: Context) -> None:
    """Silent while anything in the file is broken or misspelt: that may be the use."""
    if not tree.sound:
        raise Unusable(id)
    parameters, uses = tree.map("parameters"), parameter_uses(tree)
    for name, place in parameters.keys.items():
        if name not in uses and uses.keys() <= parameters.keys.keys() and name not in RESERVED:
            context.problems.add(
                place, "unused-parameter", f"nothing in this circuit uses the parameter '{name}'."
            )
    fed = {
        fed["supply"].text
        for section in ("parts", "sources")
        for _, fed in tree.map(section).items()
        if "supply" in fed
    }
    supplies = tree.map("supplies")
    for name, place in supplies.keys.items():
        if name not in fed and fed <= supplies.keys.keys():
            context.problems.add(
                place, "unused-supply", f"no part and no source of this circuit has `supply: {name}`."
            )


def check_supplies(id: str, tree: Map, context: Context) -> None:
    supplies = tree.map("supplies").entries
    for name, part in tree.map("parts").items():
        supply = part.entries.get("supply")
        if supply and supply.text not in supplies:
            message = not_one_of(supply.text, "a supply of this circuit", supplies)
            context.problems.add(supply.place, "unknown-supply", message)
        kind = networks.kind_of(part)
        if supply and kind and kind != "emf":
            message = f"'{name}' is {a(kind)} and cannot feed; an emf can."
            context.problems.add(supply.place, "wrong-part", message)


def check_switches(id: str, tree: Map, context: Context) -> None:
    """A source is turned on by a supply of the style drive, an emf by another."""
    declared = tree.map("supplies").entries
    styles = {name: supply.text("style") for name, supply in tree.map("supplies").items()}
    for section, wanted in (("sources", True), ("parts", False)):
        for _, user in tree.map(section).items():
            supply = user.entries.get("supply")
            if supply and wanted and supply.text not in declared:
                message = not_one_of(supply.text, "a supply of this circuit", declared)
                context.problems.add(supply.place, "unknown-supply", message)
            elif supply and supply.text in styles and (styles[supply.text] == "drive") != wanted:
                what = (
                    "is not of the style drive; a source wants one"
                    if wanted
                    else "is of the style drive; an emf wants another"
                )
                context.problems.add(supply.place, "wrong-supply", f"supply '{supply.text}' {what}.")


def check_drives(id: str, tree: Map, context: Context) -> None:
    for _, source in tree.map("sources").items():
        drive = source.entries.get("drive")
        for part, place in drive.keys.items() if drive else ():
            networks.check_part(part, place, tree, ("emf", "sink"), "drive", context)


def check_nodes(id: str, tree: Map, context: Context) -> None:
    roles = tree.whole("roles")
    check_repeated(roles, "role", context)
    anchors = (*roles.texts(), CHASSIS)
    networks.check_nodes_used(
        networks.pairs_between(tree, "sources", "listeners", "limits", "needs"), tree, anchors, context
    )
    touched = networks.touched(tree)
    for role in roles:
        if role.text not in touched:
            context.problems.add(role.place, "unused-role", f"no part touches the role '{role.text}'.")
    heard = [node for pair in networks.pairs_between(tree, "sources", "listeners") for node in pair.texts()]
    networks.check_dangling(tree, anchors, heard, context)


def check_outputs(id: str, tree: Map, context: Context) -> None:
    """An output that only wires and emfs lead to would drive anything: what loads it could not be told."""
    stiff = networks.joined(tree, ("wire", "emf"))
    for name, source in tree.map("sources").items():
        output = source.entries.get("output")
        if (
            output
            and output.sound
            and len(set(output.texts())) == 2
            and len({stiff.get(node, node) for node in output.texts()}) == 1
        ):
            message = (
                f"nothing but wires and emfs lies between the nodes of the output of '{name}'; put in the "
                "resistance it has."
            )
            context.problems.add(output.place, "stiff-output", message)


def check_reversal(id: str, tree: Map, context: Context) -> None:
    """A supply the wrong way round must never pass for no power at all."""
    for name, listener in tree.map("listeners").items():
        turned = any(limit.text("reversal") == "yes" for _, limit in tree.map("limits").items())
        if listener.text("kind", "") == "power" and not turned and tree.sound:
            message = (
                f"'{name}' takes power, and no limit with `reversal: yes` says what it stands with plus and "
                "minus swapped; `unknown` is a value."
            )
            context.problems.add(tree.map("listeners").keys[name], "unasked-reversal", message)


def check_parts(id: str, tree: Map, context: Context) -> None:
    networks.check_parts(tree, context)


def check_couplings(id: str, tree: Map, context: Context) -> None:
    networks.check_couplings(tree, context)


def check_limits(id: str, tree: Map, context: Context) -> None:
    networks.check_limits(tree, context)


def check_asks(id: str, tree: Map, context: Context) -> None:
    """Answers set parameters of this circuit, to values that suit them."""
    parameters, uses = tree.map("parameters"), parameter_uses(tree)
    for key, ask in tree.map("asks").items():
        unit = _unit(key, context)
        values = [(answer, name, node) for answer in ("yes", "no") for name, node in ask.map(answer).items()]
        for name in ask["sets"] if "sets" in ask else ():
            if name.text not in parameters:
                context.problems.add(
                    name.place,
                    "unknown-parameter",
                    not_one_of(name.text, "a parameter of this circuit", parameters.entries),
                )
            elif unit is not None and any(
                shape.unit and shape.unit != unit for _, shape in uses.get(name.text, ())
            ):
                message = f"'{name.text}' is not in {unit or 'words'}, as the answer to '{key}' is."
                context.problems.add(name.place, "wrong-unit", message)
        for answer, name, node in values:
            if name not in parameters:
                message = not_one_of(name, "a parameter of this circuit", parameters.entries)
                context.problems.add(ask[answer].keys[name], "unknown-parameter", message)
            else:
                check_value(name, node, uses.get(name, []), context)


def _unit(key: str, context: Context) -> str | None:
    """The unit a question asks for, "" where it is yes or no; None where it cannot be read."""
    questions = context.trees["questions"].get("questions")
    found = questions.entries.get(key) if questions else None
    return found.text("unit", "") if found else None


def check_asked(id: str, tree: Map, context: Context) -> None:
    """A manual is asked for every number that decides, or the template says why no manual tells it. Silent in
    a catalogue without questions, and while a part of the file cannot be read."""
    if not context.ids["questions"] or not tree.sound:
        return
    parameters, unasked, named, decides = (
        tree.map("parameters"),
        tree.map("unasked"),
        parameter_uses(tree),
        set(),
    )
    asked = {
        name
        for _, ask in tree.map("asks").items()
        for name in (*ask.texts("sets"), *(n for a in ("yes", "no") for n in ask.map(a).entries))
    }
    mend = "name it under `asks`, or under `unasked` with the reason why no manual tells it."
    for what, value in deciding(tree):
        decides.add(value.text)
        if value.text not in named:
            context.problems.add(
                value.place,
                "unasked-number",
                f"{what} decides verdicts and is written in its place; make it a parameter and {mend}",
            )
        elif value.text in parameters and value.text not in asked and value.text not in unasked:
            context.problems.add(
                parameters.keys[value.text],
                "unasked-number",
                f"'{value.text}' decides verdicts and no question asks for it; {mend}",
            )
    for name, place in unasked.keys.items():
        fault = (
            "no parameter of this circuit"
            if name not in parameters
            else "asked for"
            if name in asked
            else None
            if name in decides
            else "no number that decides"
        )
        if fault:
            context.problems.add(place, "needless-unasked", f"'{name}' is {fault}; take it out of `unasked`.")


CHECKS = (
    check_asks,
    check_asked,
    check_parameters,
    check_unused,
    check_supplies,
    check_switches,
    check_drives,
    check_nodes,
    check_outputs,
    check_reversal,
    check_parts,
    check_couplings,
    check_limits,
)
