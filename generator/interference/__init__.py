"""What else gets into a run: hum, mains and radio from closed formulas with stated range, and what helps how
much.
"""

from generator.catalogue import CatalogueError

from .ports import with_ports
from .published import as_data as published
from .read import read
from .run import Run, from_data
from .tables import Tables, references
from .tables import read as tables
from .told import Told, as_data, as_lines, tell

__all__ = [
    "CatalogueError",
    "Run",
    "Tables",
    "Told",
    "as_data",
    "as_lines",
    "from_data",
    "published",
    "read",
    "references",
    "tables",
    "tell",
    "with_ports",
]
