"""The docs tree: record pages, indexes, the check, the matrix, guides, drawings and data, all from one run.

A plain step before `mkdocs build`. The same catalogue and verdicts give the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from generator.catalogue.published import as_data
from generator.catalogue.records import Catalogue
from generator.engine import rulebook
from generator.engine.tables import tables
from generator.site import (
    about,
    bundles,
    cards,
    data,
    drawings,
    edition,
    embeds,
    guides,
    looks,
    mated,
    offline,
    qr,
    runs,
    sides,
    sought,
    tree,
    verdicts,
)
from generator.site import address as addresses
from generator.site.address import Address
from generator.site.class_pages import Class
from generator.site.glossary import Glossary
from generator.site.mark_sheet import mark_sheet
from generator.site.other_pages import other_pages
from generator.site.record_pages import pages as record_pages
from generator.site.sized import sized
from generator.site.small import small
from generator.site.stamp import stamp
from generator.site.templates import Templates
from generator.site.workshop_pages import data as workshop_data
from generator.site.workshop_pages import pages as workshop_pages
from generator.workshop import kept

SOURCE = Path(__file__).parents[2] / "site_src"
COPIED = ("assets",)  # taken as they are


def build(catalogue: Catalogue, rows: list[verdicts.Row], out: Path, source: Path = SOURCE) -> tree.Changes:
    """Write the docs tree for a catalogue and the rows of its single-lead connections.

    Only files whose content changed are written; files of an earlier run that no longer belong are removed.
    """
    ranked = sorted(rows, key=lambda row: (row["from"], row["into"], verdicts.rank(row)))
    return tree.write(docs(catalogue, ranked, source, addresses.read(source.parent / "mkdocs.yml")), out)


def docs(
    catalogue: Catalogue, rows: list[verdicts.Row], source: Path = SOURCE, address: Address = Address()
) -> dict[str, bytes]:
    """Every file of the docs tree: path -> content."""
    judged_by, published = tables(), as_data(catalogue)
    catalogue = runs.with_sources(catalogue)
    files = small(bundles.joined(dict(_copied(source))))
    for path, content in data.files(
        published, judged_by, mated.table(catalogue), looks.published(catalogue), rows, sides.sizes(catalogue)
    ).items():
        files[path] = files.get(path, b"") + content  # data.js follows its reader
    terms = guides.read(source / "guides/glossary.yaml") | rulebook.words()
    files["assets/js/seek.js"] = files.get("assets/js/seek.js", b"") + data.script(
        {"sought": sought.files(catalogue, source, terms)}
    )
    files["assets/js/glossary.js"] = data.script(
        {"glossary": {anchor: [entry["term"], entry["says"]] for anchor, entry in terms.items()}}
    )
    files |= runs.data(catalogue) | workshop_data(catalogue)
    symptoms = kept.read(source.parent / "pinouts")
    lessons = Class(
        catalogue,
        rows,
        symptoms,
        source / "lessons",
        {name: title for name, (title, _) in guides.GUIDES.items()},
    )
    pictures = drawings.Drawings(catalogue)
    drawn = pictures.files()
    files |= (
        drawn
        | lessons.files()
        | dict(qr.files(catalogue, address))
        | dict(qr.others(lessons.codes(), address))
    )
    state = stamp(published, judged_by)
    name = edition.edition(files, source)
    files, state = edition.marked(files, name), replace(state, edition=name)
    templates = Templates((source / "templates", source), mark_sheet(), Glossary(terms), state, address)
    for page in (
        *record_pages(catalogue, rows, pictures.inline),
        *other_pages(catalogue, rows),
        cards.page(catalogue, pictures),
        *runs.pages(catalogue, source / "runs"),
        *workshop_pages(catalogue, symptoms),
        *lessons.pages(),
        *guides.pages(catalogue, source / "guides", terms, lessons.questions),
        *about.pages(
            catalogue,
            rows,
            *(guides.read(source / f"guides/{name}.yaml") for name in ("contested", "changes", "stored")),
            state,
        ),
    ):
        if page.path in files:
            raise ValueError(f"two pages want to be {page.path!r}")
        files[page.path] = sized(templates.page(page), files).encode()
    files |= embeds.files(catalogue, pictures, drawn, templates)
    files |= embeds.questions(catalogue, lessons.questions.values(), files, templates)
    return files | offline.files(source) | edition.files(source, name)


def _copied(source: Path) -> Iterator[tuple[str, bytes]]:
    for folder in COPIED:
        for path in sorted((source / folder).rglob("*")):
            # what is written for who works on the scripts stays here
            if path.is_file() and not path.name.startswith(".") and path.suffix != ".md":
                yield path.relative_to(source).as_posix(), path.read_bytes()
