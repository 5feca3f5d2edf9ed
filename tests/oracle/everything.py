"""Every setting, drive, tolerance corner and plugging state of every single-lead pairing
against ngspice: a night's run.

    python -m tests.oracle.everything [--outlet ID]... [--pinouts DIR]

from the project's folder, with the test tools and ngspice installed. Prints one line per outlet and analysis:
what was compared, how far the worst number is off as a share of what rounding allows, and up to ten numbers
that differ by more. Exit status 1 if any does, 2 for an unknown outlet.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

# the oracle's modules call each other by bare name, as pytest has them
sys.path.insert(0, str(Path(__file__).parent))

from comparison import compare_all, everything  # noqa: E402
from connections import connections  # noqa: E402
from simulator import NGSPICE  # noqa: E402

from generator.catalogue import default_directory, load  # noqa: E402
from generator.engine import pairings  # noqa: E402


def main(arguments: list[str] | None = None) -> int:
    """Compare, print, and give the exit status."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.oracle.everything", description=__doc__.splitlines()[0]
    )
    parser.add_argument("--outlet", action="append", help="only connections from this port; may be repeated")
    parser.add_argument("--pinouts", type=Path, default=default_directory(), help="another catalogue")
    options = parser.parse_args(arguments)
    if NGSPICE is None:
        parser.error("ngspice is not installed")
    catalogue = load(options.pinouts)
    found: dict[str, list] = {}
    for pairing in pairings(catalogue):
        found.setdefault(pairing[0], []).append(pairing)
    if unknown := sorted(set(options.outlet or ()) - set(found)):
        parser.error(f"no pairing starts from {', '.join(unknown)}")
    wrong = 0
    for outlet in options.outlet or found:
        wanted = connections(catalogue, found[outlet])
        for name, tally in compare_all(catalogue, wanted, everything).items():
            wrong += len(tally.wrong)
            print(
                f"{outlet}, {name}: {tally}",
                *(f"    {words}" for words in tally.wrong[:10]),
                sep="\n",
                flush=True,
            )
    print(f"{wrong} numbers differ by more than rounding." if wrong else "All agree.")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
