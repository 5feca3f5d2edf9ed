"""Teaching pictures: one idea each, for the guides. They take plain words and numbers, or a connector;
what the numbers are is their caller's.
"""

from generator.drawing.figures.balance import balance
from generator.drawing.figures.cancelling import cancelling
from generator.drawing.figures.fields import fields
from generator.drawing.figures.phantom import Pair, phantom
from generator.drawing.figures.sliding import sliding

__all__ = ["Pair", "balance", "cancelling", "fields", "phantom", "sliding"]
