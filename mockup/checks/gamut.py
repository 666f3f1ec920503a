"""Colours out of reach: printed ones that no screen shows, and a screen's that no press prints."""

from __future__ import annotations

from dataclasses import replace

from mockup.checks.envelope_sides import told_on
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.suite_context import SuiteContext, owner
from mockup.reading.envelope_sides import fitting_sides
from mockup.reading.gamut import Beyond, Gamut, gamut_of_liners, gamut_of_pieces
from mockup.suite.suite import SideName, Suite, all_sides
from mockup.trade.tolerances import BEYOND_SHARE

CHECK = "gamut"


def check_gamut(context: SuiteContext) -> list[Finding]:
    """Returns a note for every piece and liner with more than a little out of reach."""
    suite = context.suite
    lined = [each for each in suite.envelopes if each.liner is not None]
    sides = all_sides(suite.pieces)
    findings = [
        replace(each, side=side.side, message=f"{_ON[side.side]}{each.message}")
        for side, face in zip(sides, gamut_of_pieces(sides), strict=True)
        for each in gamut_findings(side.name, face)
    ]
    faces = gamut_of_liners(lined, suite.bleed_in)
    for envelope, face in zip(lined, faces, strict=True):
        findings += gamut_findings(owner(envelope), face)
    return [*findings, *_of_envelopes(suite)]


def _of_envelopes(suite: Suite) -> list[Finding]:
    """Returns what is out of reach on the printed sides of envelopes; art of another size than its
    side is told elsewhere."""
    sides = [each for own in suite.envelopes for each in fitting_sides(own, suite.bleed_in)]
    faces = gamut_of_pieces([each.piece for each in sides])
    return [
        told_on(side, replace(each, message=f"{side.called}: {each.message}"))
        for side, face in zip(sides, faces, strict=True)
        for each in gamut_findings(side.piece.name, face)
    ]


_ON: dict[SideName, str] = {
    "": "", "front": "", "back": "back: ", "outside": "", "inside": "inside: ",
}  # fmt: skip


def gamut_findings(name: str, face: Gamut) -> list[Finding]:
    """Returns what is told of one face."""
    findings: list[Finding] = []
    if face.screen.share > BEYOND_SHARE.value:
        message = f"{_told(face.screen)} prints in colours no usual screen shows"
        fix = "trust the picture less there: ask for a print on the paper itself"
        findings.append(_note(name, message, fix, face.screen))
    if face.press.share > BEYOND_SHARE.value:
        message = f"{_told(face.press)} is in RGB colours its press cannot print"
        fix = "convert it to the printer's CMYK and look again; it will come out duller"
        findings.append(_note(name, message, fix, face.press))
    return findings


def _told(beyond: Beyond) -> str:
    return f"{beyond.share * 100:.0f} % of it, up to {beyond.worst:.0f} \u0394E,"


def _note(name: str, message: str, fix: str, beyond: Beyond) -> Finding:
    share = round(beyond.share, 4)
    return found(CHECK, Severity.NOTE, name, message, fix, BEYOND_SHARE, share, beyond.at)
