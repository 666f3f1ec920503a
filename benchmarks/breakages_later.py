"""Breakages to plant in what comes of a look: the yes, the order, colours beside, folds, finishes."""

from __future__ import annotations

from benchmarks.breakage import planted

LATER = (
    *planted(
        "record/facts.py",
        ("another paper is the same piece", 'lambda piece: _stock("stock", piece.stock, piece.units),',
         "lambda piece: (),"),
        ("a fold is no part of a piece", '_said("fold", piece.fold, f"at the {piece.fold}")', "()"),
        ("edges are no part of a piece", '_said("edge", edge_said(piece.edge))', "()"),
        ("an address is no part of an envelope",
         'yield Fact(name, "\\n".join(lettering.lines), ", ".join(lettering.lines))', "yield from ()"),
        ("outlines marked coarsely", "math.floor(number / OUTLINE_STEP_IN", "math.floor(number / 0.5"),
    ),
    *planted(
        "record/status.py",
        ("a record in doubt approves", "return not self.told and all(", "return all("),
        ("a change asked for passes as a yes",
         'state: State = "approved" if said.choice.said == "approve" else "to change"',
         'state: State = "approved"'),
        ("of two answers apart the later counts", "return next(reversed(asking or last), None)",
         "return next(reversed(last), None)"),
        ("what was ordered never changes", "return not any(each.changed for each in orders if each is not None)",
         "return True"),
    ),
    *planted(
        "record/answering.py",
        ("both boxes ticked is a yes", "if min(yes, no) * _CLEARLY > max(yes, no):", "if False:"),
        ("boxes taken for one another", 'Heard("approve" if yes > no else "change", words)',
         'Heard("approve" if yes < no else "change", words)'),
    ),
    *planted(
        "record/writing.py",
        ("an event written twice", "if known is not None:", "if False:"),
    ),
    *planted(
        "ordering/gates.py",
        ("an order without a yes", 'if each.state != "approved"]', 'if each.state == "no"]'),
        ("accepted stops still stand", "and each.accepted is None", ""),
    ),
    *planted(
        "ordering/bill.py",
        ("overs rounded down", "ROUND_CEILING))", 'ROUND_CEILING)) - (1 if run % 1 else 0)'),
        ("folding not told of", "if piece.fold is not None:\n        said = f\"flat", "if False:\n        said = f\"flat"),
    ),
    *planted(
        "reading/beside.py",
        ("white papers judged as colours", "return math.hypot(lab[1], lab[2]) >= COLOURED_CHROMA or lab[0] < COLOURED_LIGHTNESS",
         "return True"),
        ("the least welcome is the most", "key=_UNWELCOME.index, default=None)",
         "key=lambda each: -_UNWELCOME.index(each), default=None)"),
    ),
    *planted(
        "reading/gamut.py",
        ("foil judged as ink", "off if plates.foil is None else np.where(plates.foil > 0, 0.0, off)", "off"),
        ("nothing is beyond the screen", "return np.zeros(drawn.shape[:2])\n    mixes", "return np.zeros(drawn.shape[:2])\n    return np.zeros(drawn.process.shape[:2])\n    mixes"),
    ),
    *planted(
        "checks/legibility.py",
        ("pale small type passes", "if each.contrast < CONTRAST_LARGE.value]", "if each.contrast < 1.0]"),
    ),
    *planted(
        "checks/folds.py",
        ("type may run across a fold", "if not across and away >= FOLD_CLEAR.value:", "if away >= 0:"),
        ("paper of any weight folds", "if piece.stock.gsm <= SCORED_ABOVE.value:", "if True:"),
    ),
    *planted(
        "checks/finish_edges.py",
        ("art may run to a torn edge", "if along.mean() <= _LONG:", "if True:"),
        ("any paper's edge is painted", "if caliper < EDGE_CALIPER.value:", "if False:"),
    ),
    *planted(
        "checks/finishes.py",
        ("a finish nobody has a plate for", "*_absent(context),", ""),
    ),
    *planted(
        "render/finishing.py",
        ("embossing sinks", '"emboss": _Bite(-0.010', '"emboss": _Bite(0.010'),
        ("foil without its metal", "return GLOSS if each.metal == \"clear\" else foil(each.metal or UNSAID)",
         "return GLOSS"),
        ("paper pressed through", "_MOST_OF_CALIPER = 0.35", "_MOST_OF_CALIPER = 3.5"),
    ),
    *planted(
        "render/folded.py",
        ("a half-open card lies flat", 'angle = HALF_OPEN_DEG if piece.shown == "half-open" else 0.0', "angle = 0.0"),
    ),
    *planted(
        "render/light/repaint.py",
        ("a finish that came is not painted", "key_of((each.art, each.presses, each.coats))", "key_of(each.art)"),
    ),
    *planted(
        "render/light/__init__.py",
        ("what the bare scene holds is lit", "layers = ready.dressed(scene.sheets, pool)",
         "layers = ready.dressed(bare.sheets, pool)"),
    ),
)  # fmt: skip
