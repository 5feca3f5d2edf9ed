"""How long building takes, beside a plain mkdocs build of the same pages with the theme as it comes.

    python tests/benchmarks/build.py [build/docs]

Ours is the docs tree, from verdicts that are remembered (fill build/readings.sqlite first: `python -m
generator ledger`), `mkdocs build` with our theme overrides, and `finish`: policy, styles, offline pack. With
a folder given, its docs tree is taken as it is and the first step is left out. CPU seconds, best of two.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[2]
ROUNDS = 2
# lines of mkdocs.yml that a plain build goes without
OWN = ("  custom_dir:", "  - generator.site.verbatim", "extra_css:", "docs_dir:", "site_dir:")
OURS = "INHERIT: {root}/mkdocs.yml\ntheme: {{custom_dir: {root}/site_src/theme}}\n"


def seconds(*command: str) -> float:
    """CPU seconds of a command and its children."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, check=True, cwd=ROOT, capture_output=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main() -> None:
    plain = "".join(line for line in (ROOT / "mkdocs.yml").open() if not line.startswith(OWN))
    with tempfile.TemporaryDirectory() as folder:
        docs = Path(sys.argv[1]).resolve() if sys.argv[1:] else Path(folder) / "docs"
        best = {
            "docs tree": float("inf"),
            "mkdocs, ours": float("inf"),
            "finish": float("inf"),
            "mkdocs, plain": float("inf"),
        }
        for _ in range(ROUNDS):
            if not sys.argv[1:]:
                best["docs tree"] = min(
                    best["docs tree"], seconds(sys.executable, "-m", "generator", "docs", "--out", str(docs))
                )
            for name, config in (("mkdocs, ours", OURS.format(root=ROOT)), ("mkdocs, plain", plain)):
                file = Path(folder) / "mkdocs.yml"
                file.write_text(f"{config}docs_dir: {docs}\nsite_dir: {folder}/site\n")
                best[name] = min(
                    best[name], seconds(sys.executable, "-m", "mkdocs", "build", "-q", "-f", str(file))
                )
                if name == "mkdocs, ours":
                    best["finish"] = min(
                        best["finish"],
                        seconds(sys.executable, "-m", "generator", "finish", "--site", f"{folder}/site"),
                    )
    ours = best["mkdocs, ours"] + best["finish"] + (best["docs tree"] if not sys.argv[1:] else 0)
    for name, taken in best.items():
        print(f"{taken:7.1f} s  {name}")
    print(f"{ours / best['mkdocs, plain']:7.2f}    times the plain build")


if __name__ == "__main__":
    main()
