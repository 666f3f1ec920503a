"""What the names of a ring say that it is: its processing step, its layers and ids, its inks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mockup.dies.template.rings import Ring
from mockup.trade.vocabulary import STEPS, Meaning, meaning, name_meaning
from mockup.vector.template import TemplatePath

NEUTRAL: frozenset[Meaning] = frozenset(("guide",))
"""Names that a whole template may have, its cut among them."""


@dataclass(frozen=True)
class Called:
    """What a name says, the kind of name it is ("step", "layer", "ink"), and the name."""

    what: Meaning
    kind: str
    name: str

    @property
    def words(self) -> str:
        """`the layer "Stanzkontur", whose name means cut`, for the reader."""
        if self.kind == "step":
            return f"the processing step {self.name} (ISO 19593-1)"
        return f'the {self.kind} "{self.name}", whose name means {self.what}'


def called(ring: Ring) -> Called | None:
    """Returns what a ring is called; None where nothing is said.

    Of an outline that is drawn more than once the name that means the cut, else that of the
    uppermost line: a ground in the art may have the die's own outline.
    """
    found = [path_called(path) for path in ring.paths]
    cuts = [each for each in found if each is not None and each.what in ("cut", "trim")]
    if cuts:
        return min(cuts, key=lambda each: (each.kind != "step", each.what != "cut"))
    return path_called(ring.seen_path)


def path_called(path: TemplatePath) -> Called | None:
    """Returns what a path is called: a step says more than a layer, and a layer than an ink."""
    for step in reversed(path.steps):
        what = STEPS.get(step) or STEPS.get(step.partition("/")[0])
        if what is not None:
            return Called(what, "step", step)
    for kind, names in (("layer", path.layers), ("ink", path.inks)):
        said = meaning(names)
        if said is not None and (said[0] not in NEUTRAL or kind == "ink"):
            return Called(said[0], kind, said[1])
        firmer = _firmer(names)
        if firmer is not None:
            return Called(firmer[0], kind, firmer[1])
    return None


def names_of(paths: Sequence[TemplatePath]) -> list[str]:
    """Returns the names that can be asked for, each once, in the order they are drawn."""
    return list(dict.fromkeys(n for p in paths for n in (*p.layers, *p.inks, *p.steps)))


def _firmer(names: Sequence[str]) -> tuple[Meaning, str] | None:
    """Returns what a name farther out says where the inner ones say no more than "guide"."""
    for name in reversed(names):
        what = name_meaning(name)
        if what is not None and what not in NEUTRAL:
            return what, name
    return None
