"""The site's scripts, ES modules in source, written as classic scripts: a page opened from a
folder may load no module.

A module becomes a block of its own, so that no name of one meets that of another. What it exports stands on
the object of its folder, `Ringfence.engine` for engine/*.js; what it imports is read from there as the block
begins. That holds because modules of one script run in the order of their imports, and what a script takes
from others has run before (bundles.NEEDS). A parser of the language says what is an import.
"""

from __future__ import annotations

import posixpath
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from tree_sitter import Node, Parser

from generator.site.small import JAVASCRIPT

HEAD = '"use strict";\nglobalThis.Ringfence ??= {};\n'
DECLARED = {"function_declaration", "generator_function_declaration", "class_declaration"}


@dataclass(frozen=True)
class Module:
    """`imports`: path -> {name there: name here}. `exports`: name outside -> name here. `body` is
    the rest of the text."""

    path: str
    imports: Mapping[str, Mapping[str, str]]
    exports: Mapping[str, str]
    body: str

    @property
    def folder(self) -> str:
        return self.path.split("/")[0]


def read(sources: Mapping[str, bytes]) -> dict[str, Module]:
    """The modules of all scripts, path -> source. Raises ValueError where one takes what no other gives, or
    where imports go in a circle."""
    modules = {path: _module(path, source) for path, source in sorted(sources.items())}
    given: dict[tuple[str, str], str] = {}
    for module in modules.values():
        for name in module.exports:
            other = given.setdefault((module.folder, name), module.path)
            if other != module.path:
                raise ValueError(
                    f"{other} and {module.path} both export {name}, and the object of their folder has room "
                    "for one."
                )
        for path, names in module.imports.items():
            if path not in modules:
                raise ValueError(f"{module.path} imports {path}, which is not there.")
            for name in names.keys() - modules[path].exports.keys():
                raise ValueError(f"{module.path} imports {name} from {path}, which exports no such name.")
    ordered(modules, modules)
    return modules


def ordered(modules: Mapping[str, Module], paths: Iterable[str]) -> list[str]:
    """The modules of these paths and all that they import, each after what it imports; else by name."""
    order: list[str] = []

    def visit(path: str, way: tuple[str, ...]) -> None:
        if path in way:
            raise ValueError(f"Imports go in a circle: {' -> '.join((*way[way.index(path) :], path))}.")
        if path not in order:
            for other in sorted(modules[path].imports):
                visit(other, (*way, path))
            order.append(path)

    for path in sorted(paths):
        visit(path, ())
    return order


def classic(modules: Mapping[str, Module], paths: Collection[str]) -> bytes:
    """One classic script of the modules of these paths; what they import from others has to
    be there when it runs."""
    mine = [modules[path] for path in ordered(modules, paths) if path in paths]
    folders = dict.fromkeys(module.folder for module in mine if module.exports)
    return (
        HEAD + "".join(f"Ringfence.{folder} ??= {{}};\n" for folder in folders) + "".join(map(_block, mine))
    ).encode()


def _block(module: Module) -> str:
    taken: dict[str, dict[str, str]] = {}
    for path, names in module.imports.items():
        taken.setdefault(path.split("/")[0], {}).update(names)
    head = "".join(
        f"const {{ {_pairs(names)} }} = Ringfence.{folder};\n" for folder, names in taken.items() if names
    )
    tail = (
        f"Object.assign(Ringfence.{module.folder}, {{ {_pairs(module.exports)} }});\n"
        if module.exports
        else ""
    )
    return f"{{\n{head}{module.body.strip()}\n{tail}}}\n"


def _pairs(names: Mapping[str, str]) -> str:
    return ", ".join(name if name == here else f"{name}: {here}" for name, here in names.items())


def _module(path: str, source: bytes) -> Module:
    root = Parser(JAVASCRIPT).parse(source).root_node
    if root.has_error:
        raise ValueError(f"{path} is not JavaScript.")
    imports: dict[str, dict[str, str]] = {}
    exports: dict[str, str] = {}
    kept, at = [], 0
    for node in root.named_children:
        if node.type == "import_statement":
            imports.setdefault(_target(path, node), {}).update(
                _named(path, node, "import_clause", "named_imports")
            )
        elif node.type == "export_statement":
            exports.update(_exported(path, node))
        else:
            continue
        declaration = node.child_by_field_name("declaration")
        kept.append(source[at : node.start_byte])
        at = declaration.start_byte if declaration else node.end_byte
    return Module(path, imports, exports, b"".join((*kept, source[at:])).decode())


def _target(path: str, node: Node) -> str:
    return posixpath.normpath(
        posixpath.join(posixpath.dirname(path), _text(node.child_by_field_name("source"))[1:-1])
    )


def _exported(path: str, node: Node) -> Iterator[tuple[str, str]]:
    declaration = node.child_by_field_name("declaration")
    if declaration is None:
        yield from ((outside, here) for here, outside in _named(path, node, "export_clause").items())
    elif declaration.type in DECLARED:
        yield (_text(declaration.child_by_field_name("name")),) * 2
    elif declaration.type == "lexical_declaration" and _text(declaration).startswith("const "):
        for one in declaration.named_children:
            if one.type == "variable_declarator" and one.child_by_field_name("name").type != "identifier":
                raise _unreadable(path, node)
            if one.type == "variable_declarator":
                yield (_text(one.child_by_field_name("name")),) * 2
    else:  # what changes later would be another value outside
        raise _unreadable(path, node)


def _named(path: str, node: Node, *within: str) -> dict[str, str]:
    """The names between the braces of an import or export: name -> what it is called after `as`."""
    for kind in within:
        inside = [child for child in node.named_children if child.type != "string"]
        if (within[0] == "export_clause" and node.child_by_field_name("source")) or [
            child.type for child in inside
        ] != [kind]:
            raise _unreadable(path, node)
        node = inside[0]
    return {
        _text(one.child_by_field_name("name")): _text(
            one.child_by_field_name("alias") or one.child_by_field_name("name")
        )
        for one in node.named_children
    }


def _unreadable(path: str, node: Node) -> ValueError:
    return ValueError(
        f"{path}:{node.start_point[0] + 1}: only `import {{ name }} from`, and `export` before const, "
        "function or class or with braces, can be joined."
    )


def _text(node: Node) -> str:
    return node.text.decode()
