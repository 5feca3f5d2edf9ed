"""What else gets into a run: hum, mains and radio from closed formulas with stated range, and what helps how
much.
"""

from .ports import with_ports
from .read import read
from .run import Run, from_data
from .tables import Tables
from .tables import read as tables
from .told import Told, as_data, as_lines, tell

__all__ = [
    "Run",
    "Tables",
    "Told",
    "as_data",
    "as_lines",
    "from_data",
    "read",
    "tables",
    "tell",
    "with_ports",
]
