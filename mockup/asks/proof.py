"""The proof asked for: every piece at true size, as PDF, for the client's yes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from mockup.asks.opening import Setting, Writing, open_on_scene
from mockup.asks.values import PathGiven, audience_of, choice_of, path_of
from mockup.checks.enclosure import too_small_told
from mockup.output import proof
from mockup.output.destination import PDF, Destination
from mockup.output.proof.grid import PAPERS_IN
from mockup.progress import Progress, part
from mockup.render.flatlay import Shot, flatlay_picture
from mockup.suite.audience import Audience
from mockup.suite.placeholders import refuse_placeholders
from mockup.suite.suite import Suite

_COVER_SHARE = 0.5  # of the time, about: the cover's picture, then the pages


@dataclass(frozen=True)
class ProofRequest:
    """A proof to be set.

    suite: the suite file. output: the .pdf to write. paper: "letter" or "a4", None for the suite's
    own. audience: the client is not shown a template's lines left in the art.
    """

    suite: PathGiven
    output: PathGiven
    paper: str | None = None
    audience: Audience | str = Audience.CLIENT


@dataclass(frozen=True)
class ProofAnswer:
    """The file written, its pages and paper, a line for every piece with marks not shown, and
    one for every name taken in one of its meanings.

    `cuts` has a line for every die from a template: which path of it is the cut.
    """

    written: Path
    pages: int
    paper: str
    left_out: tuple[str, ...]
    taken: tuple[str, ...] = ()
    too_small: tuple[str, ...] = ()
    """A line for every envelope that what it holds does not go into."""
    cuts: tuple[str, ...] = ()


def write_proof(request: ProofRequest, progress: Progress | None = None) -> ProofAnswer:
    """Writes a proof and returns what was written.

    Raises RequestError, SuiteError, InputError, LimitError, OutputError.
    """
    output = path_of("output", request.output)
    wanted = request.paper
    paper = None if wanted is None else choice_of("paper", wanted, tuple(PAPERS_IN))
    destination = Destination(output, "proof", PDF)
    audience = audience_of(request.audience)

    def doors(suite: Suite) -> list[Destination]:
        if audience is Audience.CLIENT:
            refuse_placeholders(suite)
        return [destination]

    opened, scene = open_on_scene(
        path_of("suite", request.suite), audience, Writing(doors), Setting()
    )
    suite = opened.suite if paper is None else replace(opened.suite, paper=paper)
    cover = Shot(suite, scene, proof.COVER_PX, line=suite.cut_line)
    picture = flatlay_picture(cover, part(progress, 0.0, _COVER_SHARE))
    pages = proof.write_proof(suite, output, picture, part(progress, _COVER_SHARE, 1.0))
    told = (opened.left_out, opened.taken, too_small_told(suite), opened.cuts)
    return ProofAnswer(output, pages, suite.paper, *told)
