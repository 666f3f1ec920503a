"""The proof: a PDF for the client, from the cover to the page her yes is asked on."""

from mockup.output.proof.cover import COVER_PX
from mockup.output.proof.document import write_proof
from mockup.output.proof.plan import Telling

__all__ = ["COVER_PX", "Telling", "write_proof"]
