"""The proof: a PDF for the client, from the cover to the page her yes is asked on."""

from mockup.output.proof.document import write_proof

__all__ = ["write_proof"]
