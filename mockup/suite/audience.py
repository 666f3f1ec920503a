"""Whose eyes a picture is for: what a client is shown is not all that the studio sees."""

from __future__ import annotations

from enum import StrEnum


class Audience(StrEnum):
    """The client sees the finished piece; the studio also lines, marks and figures."""

    CLIENT = "client"
    STUDIO = "studio"
