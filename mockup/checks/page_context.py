"""What the checks of one page are given."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.checks.settings import Settings
from mockup.reading.page_facts import PageFacts


@dataclass(frozen=True)
class PageContext:
    """One piece's page being checked, and what it is measured against."""

    page: PageFacts
    settings: Settings
