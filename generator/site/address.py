"""Where the site stands and where its facts are edited, if anybody has said. Nothing of
either is ever guessed."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from mkdocs.utils.yaml import yaml_load

SCHEMES = ("https://", "http://")


@dataclass(frozen=True)
class Address:
    """`site` is the absolute address of the front page, `facts` that of an editor's top folder of the
    repository; both end in a slash, and are empty where they are not known."""

    site: str = ""
    facts: str = ""

    def __post_init__(self):
        for address in filter(None, (self.site, self.facts)):
            if not address.startswith(SCHEMES) or set(address) & set(" \"'<>#?"):
                raise ValueError(
                    f"{address!r} is not an address a page can stand at; write it like "
                    "https://example.org/ringfence/"
                )

    def edit(self, kind: str, record: str) -> str:
        """Where a record's file is edited, or nothing."""
        return f"{self.facts}pinouts/{kind}/{record}.yaml" if self.facts else ""


def read(config: Path) -> Address:
    """The addresses mkdocs.yml gives: `site_url`, which takes RINGFENCE_URL from the environment, and
    `edit_uri` below `repo_url`, where both are set."""
    with config.open(encoding="utf-8") as file:
        said = yaml_load(file)
    site, repository, edit = (
        str(said.get(key) or "").strip() for key in ("site_url", "repo_url", "edit_uri")
    )
    return Address(
        _ended(site), _ended(f"{_ended(repository)}{edit.lstrip('/')}") if repository and edit else ""
    )


def _ended(address: str) -> str:
    return f"{address.rstrip('/')}/" if address else ""
