"""What a first suite file says of the people, until their names are written there."""

from __future__ import annotations

from mockup.errors import Mistake, SuiteError
from mockup.suite.suite import Suite

CLIENT = "Your client"
DESIGNER = "Your name"


def refuse_placeholders(suite: Suite) -> None:
    """Raises SuiteError where a suite still names nobody, which no client is to read."""
    said = (
        ("client", suite.client, CLIENT, "the client's name"),
        ("designer", suite.designer, DESIGNER, "your own"),
    )
    mistakes = [
        Mistake(
            f'is still "{given}"; write {name} there, or set the proof with --for studio',
            str(suite.path),
            key,
            given,
        )
        for key, given, placeholder, name in said
        if given is not None and given == placeholder
    ]
    if mistakes:
        raise SuiteError(*mistakes)
