"""A suite laid out on a table: pure geometry, in inches, chosen by an explicit score."""

from mockup.render.arrangement.choice import arrange
from mockup.render.arrangement.model import Arrangement, Frame, Item, Placed, Score

__all__ = ["Arrangement", "Frame", "Item", "Placed", "Score", "arrange"]
