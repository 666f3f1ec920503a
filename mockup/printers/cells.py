"""What the cells of a printer's catalogue may hold: exact prices, minimums, thicknesses."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field
from pydantic_core import PydanticCustomError


def _exact(value: object) -> object:
    """Returns a whole number as a Decimal; TOML's other numbers are read as Decimals already."""
    if isinstance(value, bool) or not isinstance(value, int | Decimal):
        raise PydanticCustomError("number_type", "a number")
    return Decimal(value)


Exact = Annotated[Decimal, BeforeValidator(_exact)]
Price = Annotated[Exact, Field(ge=0, le=1_000_000)]
Minimum = Annotated[int, Field(ge=1, le=1_000_000)]
Thickness = Annotated[Exact, Field(ge=1, le=1000)]
Share = Annotated[Exact, Field(ge=0, le=100)]
Name = Annotated[str, Field(min_length=1, max_length=80)]


class Table(BaseModel):
    """A table of a catalogue: no other keys, no value of another type."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)
