"""Breakages to plant: realistic faults, each one exact text put in place of another.

A row whose text is not found once in its file is told as moved: mend the row, do not drop it.
"""

from __future__ import annotations

from benchmarks.breakage import Breakage, planted
from benchmarks.breakages_doors import DOORS
from benchmarks.breakages_later import LATER

RENDER = (
    *planted(
        "render/coverage.py",
        ("holes filled", "total = np.abs(total - inside)", "total = np.maximum(total, inside)"),
        ("coverage moved by a pixel", "points = (ring - (view.left_in, view.top_in)) * view.ppi",
         "points = (ring - (view.left_in, view.top_in)) * view.ppi + (1.0, 0.0)"),
        ("coverage all or nothing", "return np.clip(total, 0.0, 1.0)",
         "return np.round(np.clip(total, 0.0, 1.0))"),
    ),
    *planted(
        "render/cutline.py",
        ("cut line off by its width", "for band in _stroke(shape, width_in, 0.1 / view.ppi)",
         "for band in _stroke(shape, width_in * 2, 0.1 / view.ppi)"),
        ("cut line round outer edges only", "for outline in shape.outlines:",
         "for outline in shape.outlines[:1]:"),
        ("line without contrast taken", "if graphite >= LINE_CONTRAST:", "if graphite >= 1.0:"),
    ),
    *planted(
        "render/piece.py",
        ("edges blended by bytes", "light = linear(colour) * share[:, None] + decode(below[:, :3])",
         "light = linear(colour) * share[:, None] + (below[:, :3] / 255)"),
        ("a piece's line lost", "in strokes(line) if line else ():", "in ():"),
        ("casing lost", "casing = [(line.casing, line.width_pt * CASING_FACTOR)] if line.casing",
         "casing = [(line.casing, line.width_pt)] if line.casing"),
        ("a piece on white paper",
         "appearance(plates, parse_hex(piece.stock.colour_hex))",
         "appearance(plates, (255, 255, 255))"),
        ("colours left under nothing", "cut[rows][cut[rows, :, 3] == 0] = 0", "pass"),
    ),
    *planted(
        "render/sheets.py",
        ("flat-lay line lost", "if each.line is not None:", "if each.line is not None and each.bow is None:"),
        ("liner left out",
         "if opened and envelope.liner is not None:", "if False:"),
        ("cards on their envelope's paper", "parse_hex(piece.stock.colour_hex),\n        piece.stock,",
         "(255, 255, 255),\n        piece.stock,"),
        ("bevel lost", "bevel_in=thickness_in * _BEVEL_SHARE", "bevel_in=0.0"),
        ("grain of a card lost", "grain=each.grain or stock.grain,", 'grain="none",'),
        ("art beside its place by a pixel", "return _Printed(Picture(printed, *place), done)",
         "return _Printed(Picture(printed, place[0] + 1, place[1]), done)"),
        ("flap of a closed envelope left out", 'found.append(paper(back.flap, _FLAP_LIFT_IN, shown=side_shown(suite, envelope, "flap")))', "pass"),
        ("thickness lost", "thickness_in=thickness_in,", "thickness_in=0.0005,"),
    ),
    *planted(
        "render/composition.py",
        ("crop at the wrong place", "moved = translation(-left, -top)",
         "moved = translation(-left, 0.0)"),
        ("an envelope left out", "for each in suite.envelopes\n    ]\n    wanted",
         "for each in suite.envelopes[:1]\n    ]\n    wanted"),
    ),
    *planted(
        "render/torn.py",
        ("a tear ends in a shoulder", "np.clip(inside / ease_in, 0, 1)", "np.clip(inside * 1e6, 0, 1)"),
    ),
    *planted(
        "render/rims.py",
        ("a strip of print taken for a flood", "< _LEAST_SHARE", "< 0.0"),
    ),
    *planted(
        "asks/things.py",
        ("a thing left out without a word", "missed = composed(shot).without_room",
         "missed = composed(shot).without_room[:0]"),
    ),
    *planted(
        "reading/envelope_sides.py",
        ("cards held against the other side of an envelope",
         'wanted = "face" if lies == "face" else "flap"',
         'wanted = "flap" if lies == "face" else "face"'),
    ),
    *planted(
        "suite/noticing.py",
        ("a crease anywhere folds", "> MIDDLE_WITHIN_IN", "> 99"),
        ("an ink's name forgotten", "own = [name for name, _ in plates]", "own = list[str]()"),
    ),
    *planted(
        "render/flatlay.py",
        ("lifts forgotten", "*(each.lift_in for each in found)", "*(0.0 for each in found)"),
        ("seed of the grain unheard", "shot.suite.scene.seed + 1", "1"),
        ("things on the paper lost", "over = [thing for thing in things if not thing.under]",
         "over = [thing for thing in things if False]"),
    ),
    *planted(
        "render/envelope.py",
        ("a larger sheet's corner taken", "left = sheet.centre.x - box.width / 2",
         "left = sheet.left"),
    ),
    *planted(
        "render/options.py",
        ("options' shadow falls up", "_FALL_IN = (0.03, 0.05)", "_FALL_IN = (0.03, -0.05)"),
        ("options on white paper",
         "appearance(plates, parse_hex(piece.stock.colour_hex))",
         "appearance(plates, (255, 255, 255))"),
    ),
    *planted(
        "render/light/shade.py",
        ("shine lost", "lit += np.multiply(shine, lamps.window[c], out=spare)", "pass"),
        ("the window's channels turned round",
         "body = np.float32(s.body / math.pi * lamps.window[c])",
         "body = np.float32(s.body / math.pi * lamps.window[2 - c])"),
        ("grain's slope turned round", "direct = ex * nx", "direct = -ex * nx"),
        ("edges unlit", "if found is None:", "if True:"),
    ),
    *planted(
        "render/light/lamps.py",
        ("light from the other side", "ahead = np.array([math.sin(azimuth),",
         "ahead = np.array([-math.sin(azimuth),"),
    ),
    *planted(
        "render/light/tone.py",
        ("exposure down a tenth", "Lamps((window / white)", "Lamps((0.9 * window / white)"),
        ("white left as the lamps tint it", "+ shine)[_middle(body)]", "+ shine)[_middle(body)].max()"),
        ("paper's shine left in its colour", "rest = shown - shine[1]", "rest = shown"),
    ),
    *planted(
        "render/light/__init__.py",
        ("highlights cut off", "srgb.photographed(", "srgb.to_bytes("),
    ),
    *planted(
        "render/light/irradiance.py",
        ("the sky behind the window not taken off", "fill = float(", "fill = 0 * float("),
    ),
    *planted(
        "render/light/plain.py",
        ("plain edges mixed by bytes", "mixed = srgb.to_bytes(below + (own - below) * covered[..., None])",
         "mixed = (under + (art - under.astype(float)) * covered[..., None]).astype(np.uint8)"),
        ("translucent paper opaque in plain light", "own = film.over(own, below)",
         "pass"),
    ),
    *planted(
        "render/light/settle.py",
        ("cards lie in each other", "support[inside] = np.maximum(support[inside], top)", "pass"),
    ),
    *planted(
        "suite/scene_file.py",
        ("aspect turned round", "return float(match[1]) / float(match[2])",
         "return float(match[2]) / float(match[1])"),
    ),
    *planted(
        "render/scenes.py",
        ("lifts of cards and envelopes changed over", '"card": table.lift.card_in,',
         '"card": table.lift.envelope_in,'),
    ),
    *planted(
        "reading/main_piece.py",
        ("names unheard", "among = called or list(pieces)", "among = list(pieces)"),
        ("outlined type unseen", "max((*live, *_outlined_pt(painted))", "max((*live,)"),
    ),
    *planted(
        "render/items.py",
        ("what lies above unheard", "if a in known and b in known", "if False"),
        ("holes covered", "for hole in shape.holes", "for hole in ()"),
    ),
    *planted(
        "render/arrangement/meetings.py",
        ("overlap of another place", "overlap[::-1, ::-1], close[::-1, ::-1]", "overlap, close"),
    ),
    *planted(
        "render/arrangement/rules.py",
        ("corners by an edge", "if _nearest(one.corners", "if False and _nearest(one.corners"),
    ),
    *planted(
        "render/arrangement/choice.py",
        ("the first arrangement whatever is asked", "return search.kept[nth - 1]",
         "return search.kept[0]"),
    ),
    *planted(
        "render/things/places.py",
        ("things anywhere under the paper", "return found and replace(found, under=True)",
         "return found"),
    ),
)  # fmt: skip

OUTPUT = (
    *planted(
        "output/png.py",
        ("resolution in inches", "per_metre = round(ppi / _METRES_PER_INCH)",
         "per_metre = round(ppi)"),
        ("profile missing from PNG",
         'yield _chunk(b"iCCP", b"sRGB\\0\\0" + zlib.compress(srgb_profile()))', "pass"),
        ("last band lost", "for top in range(0, height, BAND_ROWS):",
         "for top in range(0, max(1, height - BAND_ROWS), BAND_ROWS):"),
    ),
    *planted(
        "output/jpeg.py",
        ("profile missing from JPEG", "icc_profile=srgb_profile(),", ""),
        ("JPEG's colour halved", 'subsampling="4:4:4"', 'subsampling="4:2:0"'),
    ),
    *planted(
        "output/files.py",
        ("a file left beside", "beside.unlink(missing_ok=True)", "pass"),
    ),
    *planted(
        "output/pdf.py",
        ("fills close holes", "stroke=0, fill=1, fillMode=FILL_EVEN_ODD)", "stroke=0, fill=1)"),
        ("device colours undeclared", "            declare_srgb(document)", "pass"),
        ("pictures a hundredth too low", "in_to_pt(box.width), in_to_pt(box.height))",
         "in_to_pt(box.width), in_to_pt(box.height * 0.99))"),
    ),
    *planted(
        "output/proof/card.py",
        ("proof pieces on white paper",
         "appearance(drawn[0], paper)",
         "appearance(drawn[0], (255, 255, 255))"),
        ("proof's cut line lost", "draw_cut_line(pdf, shape, line)", "pass"),
    ),
    *planted(
        "output/proof/envelope_sights.py",
        ("proof's liner lost", "draw_art(pdf, seen, lining[0].view, to_page, back.liner.mapped(to_page))",
         "pass"),
        ("envelopes of another colour", "_paper(pdf, sheet.mapped(to_page), envelope.colour)",
         "_paper(pdf, sheet.mapped(to_page), envelope.colour[::-1])"),
    ),
    *planted(
        "output/proof/closing.py",
    ),
    *planted(
        "output/proof/document.py",
        ("pages numbered from nought", "enumerate(zip(pages, drawings, strict=True), start=1)", "enumerate(zip(pages, drawings, strict=True), start=0)"),
    ),
    *planted(
        "output/options_sheet.py",
        ("options stand at another scale",
         "to_page = Affine(scale, 0, 0, scale, left, cell.top)",
         "to_page = Affine(scale * 0.97, 0, 0, scale, left, cell.top)"),
        ("options without a line", "for colour, width_pt in strokes(shown.line):",
         "for colour, width_pt in strokes(shown.line)[:0]:"),
    ),
    *planted(
        "asks/portfolio.py",
        ("portfolio ratio wrong", '"4x5": 4 / 5', '"4x5": 5 / 4'),
        ("portfolio shows cut lines", "piece_picture(piece, PPI, None)",
         "piece_picture(piece, PPI, suite.cut_line)"),
        ("transparency lost in the portfolio", "lambda piece=piece: piece_picture(piece, PPI, None))",
         "lambda piece=piece: piece_picture(piece, PPI, None)[:, :, :3])"),
    ),
    *planted(
        "output/marked.py",
        ("marks beside their place", "place = Point(finding.at.x + move.x, finding.at.y + move.y)",
         "place = Point(finding.at.x, finding.at.y)"),
        ("safe line outside", "_offset(shape, -safe_in)", "_offset(shape, safe_in)"),
    ),
    *planted(
        "output/shifted.py",
        ("art goes with the die", "cut_affine(m, zones).inverse()", "cut_affine(m, zones)"),
    ),
    *planted(
        "output/findings.py",
        ("JSON without the limit", '"limit": _rounded(finding.limit, 4),', ""),
        ("millimetres are inches", "in_to_mm(value * INCHES_PER_UNIT[unit])", "value * INCHES_PER_UNIT[unit]"),
    ),
)  # fmt: skip

CHECKS = (
    *planted(
        "checks/bleed.py",
        ("bleed's stop is a warning", "Severity.STOP if paper_shows else Severity.WARN",
         "Severity.WARN"),
        ("bleed shifted by a twentieth", "SHORT_BY_IN = 0.003", "SHORT_BY_IN = 0.05"),
    ),
    *planted(
        "checks/safe.py",
        ("safe's severities turned round", "Severity.STOP if cut_off or nearly else Severity.WARN",
         "Severity.WARN if cut_off or nearly else Severity.STOP"),
        ("safe margin halved in the fix", "zones.inside(zones.safe_in - TOLD_WITHIN_IN)",
         "zones.inside(zones.safe_in / 2)"),
        ("ornament is a fault", 'if mark.reading != "ornament"]', "]"),
    ),
    *planted(
        "checks/left_in.py",
        ("hidden guides unseen", "(*inspection.painted, *inspection.hidden)",
         "(*inspection.painted,)"),
        ("dies' spot colours let pass", "if is_template(spot) and painted.layer not in steps:",
         "if False:"),
    ),
    *planted(
        "checks/size.py",
        ("swapped sides untold", '"the sides are swapped" if swapped else', '"the sides are swapped" if False else'),
        ("wrong size is a note", "return found(CHECK, Severity.STOP, context.page.piece.name, message, fix, limit, worst, place)",
         "return found(CHECK, Severity.NOTE, context.page.piece.name, message, fix, limit, worst, place)"),
    ),
    *planted(
        "checks/enclosure.py",
        ("too tight let pass", "if least >= TIGHT_CLEARANCE_IN - 1e-9:", "if least >= -1.0:"),
        ("ounce of another weight", "OUNCE_G = 28.349523125", "OUNCE_G = 31.1034768"),
    ),
    *planted(
        "checks/post.py",
        ("weight step by usual weight", "if step is None or stack.most_g <= step:",
         "if step is None or stack.weight_g <= step:"),
    ),
    *planted(
        "reading/type_set.py",
        ("small type in wrong units", "row.height_in * PT_PER_INCH * SIZE_PER_X_HEIGHT",
         "row.height_in * 96 * SIZE_PER_X_HEIGHT"),
        ("reversed type is positive", "return bool(lighter > darker and lighter > LIGHTER)",
         "return bool(lighter < darker and lighter > LIGHTER)"),
    ),
    *planted(
        "checks/print_sense.py",
        ("page count unread", "if count == len(used):\n        return []", "if count >= len(used):\n        return []"),
    ),
    *planted(
        "checks/images.py",
        ("low resolution is a warning", "Severity.STOP if low else Severity.WARN", "Severity.WARN"),
        ("line art judged as a picture", "line_art = image.bits == 1", "line_art = False"),
    ),
    *planted(
        "checks/whites.py",
        ("white under nothing told", "if p.overprint and is_white(p.ink) and _covers_ink(p, painted)]",
         "if is_white(p.ink) and _covers_ink(p, painted)]"),
    ),
    *planted(
        "checks/minimum.py",
        ("the minimum itself too few", "if quantity >= least:", "if quantity > least:"),
    ),
    *planted(
        "checks/shift.py",
        ("sigma halved", "SIGMAS = 2.0", "SIGMAS = 4.0"),
        ("warned at any cut", "WARNED_SHARE = 0.01", "WARNED_SHARE = 0.5"),
    ),
    *planted(
        "checks/finding.py",
        ("accepted findings still count", "if f.accepted is None), default",
         "), default"),
    ),
    *planted(
        "reading/stack.py",
        ("liner's weight left out", 'papers.append(Paper("liner", lined, envelope.liner.stock, 1))', "pass"),
    ),
    *planted(
        "reading/showing.py",
        ("the client sees the die's lines", "frozenset(mark.painted.number for mark in marks)", "frozenset()"),
    ),
)  # fmt: skip

BREAKAGES: tuple[Breakage, ...] = (*RENDER, *OUTPUT, *CHECKS, *DOORS, *LATER)
