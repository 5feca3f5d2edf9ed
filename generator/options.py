"""What one may ask for on the command line."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Mapping
from pathlib import Path

from generator import publishing
from generator.catalogue import default_directory
from generator.lessons import command as lessons
from generator.workshop.commands import COMMANDS as WORKSHOP

KINDS = ("connectors", "assignments", "ports", "leads")


def parser(runs: Mapping[str, Callable]) -> argparse.ArgumentParser:
    """`runs` is what each command runs; `workshop` and `publishing` stand for several."""
    whole = argparse.ArgumentParser(
        prog="python -m generator", description="Know what happens before you plug it in."
    )
    commands = whole.add_subparsers(required=True, metavar="COMMAND")

    def command(
        name: str, run, about: str, json_too: bool = False, catalogue_too: bool = True, own_too: bool = True
    ) -> argparse.ArgumentParser:
        made = commands.add_parser(name, help=about, description=about)
        made.set_defaults(run=run)
        if catalogue_too:
            made.add_argument(
                "--pinouts", type=Path, default=default_directory(), metavar="DIR", help="the catalogue"
            )
            if own_too:
                made.add_argument(
                    "--own",
                    type=Path,
                    action="append",
                    default=[],
                    metavar="FILE.yaml",
                    help="a port or lead of one's own, or a folder of them",
                )
        if json_too:
            made.add_argument("--json", action="store_true", help="print JSON")
        return made

    command("lint", runs["lint"], "Print all faults of the catalogue.")
    made = command("judge", runs["judge"], "Judge one connection.", json_too=True)
    made.add_argument("start", metavar="FROM")
    made.add_argument(
        "--through", action="append", default=[], metavar="LEAD", help="a lead or adapter, in order"
    )
    made.add_argument("--explain", action="store_true", help="show the working of what decides")
    made.add_argument("--finding", metavar="ID", help="show the working of this finding instead")
    made.add_argument("--schematic", type=Path, metavar="FILE.svg", help="draw that working")
    made.add_argument("target", metavar="INTO")
    for name in ("route", "ways"):
        made = command(name, runs["route"], "Find leads from one port into another.", json_too=True)
        made.add_argument("start", metavar="FROM")
        made.add_argument("target", metavar="INTO")
    made = command("matrix", runs["matrix"], "Judge every pairing that fits; print JSON lines.")
    made.add_argument("--out", type=Path, metavar="FILE")
    made = command("draw", runs["draw"], "Draw a connector, assignment, port or lead as SVG.")
    made.add_argument("id", metavar="ID")
    made.add_argument("--view", choices=("face", "solder", "plug", "side", "lead"))
    made.add_argument("--half", metavar="NAME")
    made.add_argument("--mount", choices=("cable", "panel"), help="what the half of a side view is on")
    made = command(
        "sheets", runs["sheets"], "Write contact sheets of every face, side view and lead, light and dark."
    )
    made.add_argument("--out", type=Path, default=Path("build/sheets"), metavar="DIR")
    made = command("docs", runs["docs"], "Write the docs tree for mkdocs.")
    made.add_argument("--out", type=Path, default=Path("build/docs"), metavar="DIR")
    made = command(
        "ledger",
        runs["ledger"],
        "Write the verdict of every pairing to the catalogue's verdicts folder and print what changed.",
        own_too=False,
    )
    made.add_argument("--check", action="store_true", help="write nothing; exit 1 if the ledger is stale")
    made.add_argument("--ways", action="store_true", help="search the ways between every two ports instead")
    made.add_argument(
        "--since",
        metavar="REV",
        help="print what changed since this git revision instead of since the last write",
    )
    made.add_argument(
        "--cluster",
        metavar="ADDRESS",
        help="let the Dask cluster whose scheduler is there judge what is not remembered",
    )
    made = command(
        "interfere",
        runs["interfere"],
        "What else gets into a run: hum, mains, radio, and what helps.",
        json_too=True,
    )
    made.add_argument("file", type=Path, metavar="RUN.yaml", help="the run, described")
    publishing.add(command, runs["publishing"])
    lessons.add(command, runs["publishing"])
    for name, asked in WORKSHOP.items():
        made = command(name, runs["workshop"], asked.about, json_too=True)
        made.set_defaults(asked=asked)
        if asked.of == "lead":
            made.add_argument(asked.of, metavar=asked.of.upper())
        asked.asks(made)
    made = command("list", runs["list"], "List what the catalogue holds.", json_too=True)
    made.add_argument("kind", nargs="?", choices=KINDS)
    return whole
