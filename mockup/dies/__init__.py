"""Dies: families of outlines fitted to a size, each with one formula and its source."""

from mockup.dies.families import FAMILIES
from mockup.dies.family import Die, Family, Parameter
from mockup.dies.making import make_die

__all__ = ["FAMILIES", "Die", "Family", "Parameter", "make_die"]
