"""What leaves the house on the command line: the bundle, the published site, the look at a served one,
another id. Printing is left to the caller."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Callable
from pathlib import Path

from generator.catalogue import load
from generator.catalogue.rename import CannotRename, rename
from generator.site import folder, served
from generator.site.finish import finish
from generator.site.publish import NotPublished, publish

Answer = tuple[str, bool]  # text, and whether all is well


class Refused(Exception):
    """The command cannot do what it is asked; the message says why."""


def add(command: Callable[..., ArgumentParser], run: Callable) -> None:
    """Add the commands; `command` makes a parser, `run` gets the options, whose `answers`
    is the function here."""
    made = command(
        "finish",
        run,
        "After mkdocs build: give every page its policy, trim the styles, write the offline pack.",
        catalogue_too=False,
    )
    made.add_argument(
        "--site", type=Path, default=Path("build/site"), metavar="DIR", help="what mkdocs build wrote"
    )
    made.set_defaults(answers=_finish)
    made = command(
        "bundle", run, "Write the built site as a zip file that works from a folder.", catalogue_too=False
    )
    made.add_argument(
        "--site", type=Path, default=Path("build/site"), metavar="DIR", help="what mkdocs build wrote"
    )
    made.add_argument("--out", type=Path, default=Path("build/ringfence.zip"), metavar="FILE")
    made.set_defaults(answers=_bundle)
    made = command(
        "publish",
        run,
        "Put the built site into the folder a web host serves: whole, or not at all.",
        catalogue_too=False,
    )
    made.add_argument("folder", type=Path, metavar="FOLDER")
    made.add_argument(
        "--site", type=Path, default=Path("build/site"), metavar="DIR", help="what mkdocs build wrote"
    )
    made.set_defaults(answers=_publish)
    made = command(
        "served",
        run,
        "Say whether the site at an address is whole, which version it is, and whether its host sends it "
        "rightly.",
        catalogue_too=False,
    )
    made.add_argument("address", metavar="ADDRESS")
    made.set_defaults(answers=_served)
    made = command(
        "rename",
        run,
        "Give a connector, assignment, port or lead another id; the old address goes on answering.",
    )
    made.add_argument("old", metavar="OLD")
    made.add_argument("new", metavar="NEW")
    made.set_defaults(answers=_rename)


def _finish(options: Namespace) -> Answer:
    if not (options.site / "index.html").is_file():
        raise Refused(f"no built site in {options.site}; run mkdocs build first")
    try:
        finish(options.site)
    except ValueError as why:
        raise Refused(str(why)) from None
    return "", True


def _bundle(options: Namespace) -> Answer:
    try:
        folder.write(options.site, options.out)
    except FileNotFoundError as missing:
        raise Refused(str(missing)) from None
    return "", True


def _publish(options: Namespace) -> Answer:
    try:
        done = publish(options.site, options.folder)
    except NotPublished as why:
        raise Refused(str(why)) from None
    return (
        (
            f"Version {done.version} is in {options.folder}: {done.written} files written, {done.unchanged} "
            f"were there already, {done.removed} removed."
        ),
        True,
    )


def _served(options: Namespace) -> Answer:
    address = options.address if options.address.endswith("/") else f"{options.address}/"
    try:
        report = served.look(address)
    except (OSError, ValueError) as fault:
        raise Refused(f"{address} does not answer: {getattr(fault, 'reason', None) or fault}.") from None
    return served.told(report), not report.faults


def _rename(options: Namespace) -> Answer:
    load(options.pinouts)  # only a whole catalogue is renamed in
    try:
        changed = rename(options.pinouts, options.old, options.new)
    except CannotRename as why:
        raise Refused(str(why)) from None
    told = (
        f"'{options.old}' is '{options.new}' now. Guides and tables outside the catalogue may name it too: "
        "search for it, then run lint and ledger."
    )
    return "\n".join([*map(str, changed), told]), True
