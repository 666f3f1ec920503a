"""Writes the four print PDFs of the Tide Mill Supper beside this file."""

from pathlib import Path

import details
import invitation
import liner
import reply

HERE = Path(__file__).parent


def main() -> None:
    """Draws every piece; the same files, byte for byte, each time."""
    invitation.draw(HERE / "invitation.pdf")
    details.draw(HERE / "details.pdf")
    reply.draw(HERE / "reply.pdf")
    liner.draw(HERE / "liner.pdf")


if __name__ == "__main__":
    main()
