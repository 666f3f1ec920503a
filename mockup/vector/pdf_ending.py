"""Whether a PDF's end is there: a reader rebuilds a file that was cut short, less what is gone."""

from __future__ import annotations

_END = b"%%EOF"
_LAST_BYTES = 4096  # judgement: four times what readers look through (ISO 32000-1 Annex H, note 18)

CUT_SHORT = "is cut short: its end is missing, and what was drawn there; copy or save it again"
"""What is told of a file that had to be rebuilt and lacks its end."""


def lacks_its_end(content: bytes) -> bool:
    """Returns whether a PDF's last bytes hold no mark of its end (ISO 32000-1 7.5.5)."""
    return _END not in content[-_LAST_BYTES:]
