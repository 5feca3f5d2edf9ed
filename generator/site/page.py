"""One page of the site: where it lives, how it links to the others, and the records its template shows."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any
from urllib.parse import quote

from generator.catalogue.records import Catalogue
from generator.ledger.rows import Row

KINDS = ("connectors", "assignments", "ports", "leads")


@dataclass(frozen=True)
class Page:
    """`address` is the page's published address without the leading slash, ending in a slash
    (empty for the front page). `show` holds what only its template needs; a template reads
    `page.x` for it as for a field."""

    address: str
    template: str
    title: str
    catalogue: Catalogue
    show: dict[str, Any] = field(default_factory=dict)

    def __getattr__(self, name: str) -> Any:
        try:
            return self.__dict__["show"][name]
        except KeyError:
            raise AttributeError(f"the page {self.address!r} shows no {name!r}") from None

    @property
    def path(self) -> str:
        """Where its Markdown goes in the docs tree."""
        if self.address in {"", "guides/", "workshop/", "class/", *(f"{kind}/" for kind in KINDS)}:
            return f"{self.address}index.md"
        return f"{self.address.rstrip('/')}.md"

    @property
    def kind(self) -> str:
        """The folder of the record it shows: connectors, assignments, ports or leads."""
        return self.address.split("/")[0]

    @property
    def id(self) -> str:
        """The id of the record it shows."""
        return self.address.rstrip("/").split("/")[-1]

    def to(self, address: str) -> str:
        """A relative link to another address of the site, so that the tree works wherever it is put."""
        return "../" * self.address.count("/") + address or "./"

    def check(self, row: Row) -> str:
        """The link that opens the check on a row's connection."""
        through = ",".join(quote(lead) for lead in row["through"])
        own = f"&own={quote(row['own'], safe=',:')}" if row.get("own") else ""
        return (
            f"{self.to('check/')}#from={quote(row['from'])}&through={through}&into={quote(row['into'])}{own}"
        )

    def through(self, row: Row) -> str:
        """A row's leads in words."""
        return (
            ", then ".join(self.catalogue.leads[lead].name for lead in row["through"])
            or "no lead, plugged straight in"
        )
