"""What somebody read in the manual of one device, put in the place of the catalogue's numbers."""

from .apply import changed
from .said import Nonsense, said
from .told import numbers

__all__ = ["Nonsense", "changed", "numbers", "said"]
