"""Breakages to plant: realistic faults, each one exact text put in place of another.

A row whose text is not found once in its file is told as moved: mend the row, do not drop it.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Breakage:
    """A fault: its name, the file under mockup/, the text that is there and the text put there."""

    name: str
    file: str
    old: str
    new: str


def _in(file: str, *rows: tuple[str, str, str]) -> tuple[Breakage, ...]:
    return tuple(Breakage(name, file, old, new) for name, old, new in rows)


RENDER = (
    *_in(
        "render/coverage.py",
        ("holes filled", "total = np.abs(total - inside)", "total = np.maximum(total, inside)"),
        ("coverage moved by a pixel", "points = (ring - (view.left_in, view.top_in)) * view.ppi",
         "points = (ring - (view.left_in, view.top_in)) * view.ppi + (1.0, 0.0)"),
        ("coverage all or nothing", "return np.clip(total, 0.0, 1.0)",
         "return np.round(np.clip(total, 0.0, 1.0))"),
    ),
    *_in(
        "render/cutline.py",
        ("cut line off by its width", "for band in _stroke(shape, width_in, 0.1 / view.ppi)",
         "for band in _stroke(shape, width_in * 2, 0.1 / view.ppi)"),
        ("cut line round outer edges only", "for outline in shape.outlines:",
         "for outline in shape.outlines[:1]:"),
        ("line without contrast taken", "if graphite >= LINE_CONTRAST:", "if graphite >= 1.0:"),
    ),
    *_in(
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
    *_in(
        "render/sheets.py",
        ("flat-lay line lost", "if each.line is not None:", "if each.line is not None and each.bow is None:"),
        ("liner left out",
         "if isinstance(back, OpenBack) and envelope.liner is not None:", "if False:"),
        ("cards on their envelope's paper", "parse_hex(piece.stock.colour_hex),\n        piece.stock,",
         "(255, 255, 255),\n        piece.stock,"),
        ("bevel lost", "bevel_in=thickness_in * _BEVEL_SHARE", "bevel_in=0.0"),
        ("grain of a card lost", "grain=stock.grain,", 'grain="none",'),
        ("art beside its place by a pixel", "return Picture(printed, left_px, top_px)",
         "return Picture(printed, left_px + 1, top_px)"),
        ("flap of a closed envelope left out", "folded.append(back.flap)", "pass"),
        ("thickness lost", "thickness_in=thickness_in,", "thickness_in=0.0005,"),
    ),
    *_in(
        "render/composition.py",
        ("crop at the wrong place", "moved = translation(-left, -top)",
         "moved = translation(-left, 0.0)"),
        ("the smallest piece is main", "return max(suite.pieces, key", "return min(suite.pieces, key"),
        ("an envelope left out", "for each in suite.envelopes]\n    placed_items",
         "for each in suite.envelopes[:1]]\n    placed_items"),
    ),
    *_in(
        "render/flatlay.py",
        ("lifts forgotten", "[each.lift_in for each in found]", "[0.0 for each in found]"),
        ("seed of the grain unheard", "shot.suite.scene.seed + 1", "1"),
        ("things on the paper lost", "over = [thing for thing in things if not thing.under]",
         "over = [thing for thing in things if False]"),
    ),
    *_in(
        "render/envelope.py",
        ("a larger sheet's corner taken", "left = sheet.centre.x - box.width / 2",
         "left = sheet.left"),
    ),
    *_in(
        "render/options.py",
        ("options' shadow falls up", "_FALL_IN = (0.03, 0.05)", "_FALL_IN = (0.03, -0.05)"),
        ("options on white paper",
         "appearance(plates, parse_hex(piece.stock.colour_hex))",
         "appearance(plates, (255, 255, 255))"),
    ),
    *_in(
        "render/light/shade.py",
        ("shine lost", "lit += np.multiply(shine, lamps.window[c], out=spare)", "pass"),
        ("the window's channels turned round",
         "body = np.float32(s.body / math.pi * lamps.window[c])",
         "body = np.float32(s.body / math.pi * lamps.window[2 - c])"),
        ("grain's slope turned round", "direct = ex * nx", "direct = -ex * nx"),
        ("edges unlit", "if found is None:", "if True:"),
    ),
    *_in(
        "render/light/lamps.py",
        ("light from the other side", "ahead = np.array([math.sin(azimuth),",
         "ahead = np.array([-math.sin(azimuth),"),
    ),
    *_in(
        "render/light/tone.py",
        ("exposure down a tenth", "gain = WHITE /", "gain = 0.9 * WHITE /"),
        ("paper's shine left in its colour", "rest = shown - shine[1]", "rest = shown"),
    ),
    *_in(
        "render/light/plain.py",
        ("plain edges mixed by bytes", "mixed = srgb.to_bytes(below + (own - below) * covered[..., None])",
         "mixed = (under + (art - under.astype(float)) * covered[..., None]).astype(np.uint8)"),
        ("translucent paper opaque in plain light", "own = own * (1 - through) + below * own * through",
         "pass"),
    ),
    *_in(
        "render/light/settle.py",
        ("cards lie in each other", "support[inside] = np.maximum(support[inside], top)", "pass"),
    ),
    *_in(
        "suite/scene_file.py",
        ("aspect turned round", "return float(match[1]) / float(match[2])",
         "return float(match[2]) / float(match[1])"),
    ),
    *_in(
        "render/scenes.py",
        ("lifts of cards and envelopes changed over", '"card": table.lift.card_in,',
         '"card": table.lift.envelope_in,'),
    ),
    *_in(
        "render/arrangement/choice.py",
        ("the first arrangement whatever is asked", "return arrangements[nth - 1]",
         "return arrangements[0]"),
    ),
    *_in(
        "render/things/places.py",
        ("things anywhere under the paper", "return found and replace(found, under=True)",
         "return found"),
    ),
)  # fmt: skip

OUTPUT = (
    *_in(
        "output/png.py",
        ("resolution in inches", "per_metre = round(ppi / _METRES_PER_INCH)",
         "per_metre = round(ppi)"),
        ("profile missing from PNG",
         'yield _chunk(b"iCCP", b"sRGB\\0\\0" + zlib.compress(srgb_profile()))', "pass"),
        ("last band lost", "for top in range(0, height, BAND_ROWS):",
         "for top in range(0, max(1, height - BAND_ROWS), BAND_ROWS):"),
    ),
    *_in(
        "output/jpeg.py",
        ("profile missing from JPEG", "icc_profile=srgb_profile(),", ""),
        ("JPEG's colour halved", 'subsampling="4:4:4"', 'subsampling="4:2:0"'),
    ),
    *_in(
        "output/files.py",
        ("a file left beside", "beside.unlink(missing_ok=True)", "pass"),
    ),
    *_in(
        "output/pdf.py",
        ("fills close holes", "stroke=0, fill=1, fillMode=FILL_EVEN_ODD)", "stroke=0, fill=1)"),
        ("device colours undeclared", "_declare_srgb(document)", "pass"),
        ("pictures a hundredth too low", "in_to_pt(box.width), in_to_pt(box.height))",
         "in_to_pt(box.width), in_to_pt(box.height * 0.99))"),
    ),
    *_in(
        "output/proof/card.py",
        ("pieces at 99 %", "@ scaling(1 / page.place.ratio)", "@ scaling(0.99 / page.place.ratio)"),
        ("quantity wrong on the proof", 'f"{piece.quantity:,}"', 'f"{piece.quantity + 1:,}"'),
        ("fingerprint of another file", "{fingerprint(piece.art)}",
         "{fingerprint(suite.pieces[0].art)}"),
        ("proof pieces on white paper",
         "appearance(drawn, parse_hex(piece.stock.colour_hex))",
         "appearance(drawn, (255, 255, 255))"),
        ("proof's cut line lost", "draw_cut_line(pdf, shape, line)", "pass"),
    ),
    *_in(
        "output/proof/envelope.py",
        ("proof's liner lost", "draw_art(pdf, art, page.view, to_page, back.liner.mapped(to_page))",
         "pass"),
        ("envelope's quantity lost", "if envelope.quantity is not None:", "if False:"),
        ("envelopes of another colour", "_paper(pdf, sheet.mapped(to_page), envelope.colour)",
         "_paper(pdf, sheet.mapped(to_page), envelope.colour[::-1])"),
    ),
    *_in(
        "output/proof/closing.py",
        ("liners missing from the files", "if envelope.liner is not None:", "if False:"),
    ),
    *_in(
        "output/proof/document.py",
        ("pages numbered from nought", "enumerate(pages, start=1)", "enumerate(pages, start=0)"),
    ),
    *_in(
        "output/options_sheet.py",
        ("options stand at another scale",
         "to_page = Affine(scale, 0, 0, scale, left, cell.top)",
         "to_page = Affine(scale * 0.97, 0, 0, scale, left, cell.top)"),
        ("options without a line", "for colour, width_pt in strokes(shown.line):",
         "for colour, width_pt in strokes(shown.line)[:0]:"),
    ),
    *_in(
        "asks/portfolio.py",
        ("portfolio ratio wrong", '"4x5": 4 / 5', '"4x5": 5 / 4'),
        ("portfolio shows cut lines", "piece_picture(piece, PPI, None)",
         "piece_picture(piece, PPI, suite.cut_line)"),
        ("transparency lost in the portfolio", "lambda piece=piece: piece_picture(piece, PPI, None))",
         "lambda piece=piece: piece_picture(piece, PPI, None)[:, :, :3])"),
    ),
    *_in(
        "output/marked.py",
        ("marks beside their place", "place = Point(finding.at.x + move.x, finding.at.y + move.y)",
         "place = Point(finding.at.x, finding.at.y)"),
        ("safe line outside", "_offset(shape, -settings.safe_in)", "_offset(shape, settings.safe_in)"),
    ),
    *_in(
        "output/shifted.py",
        ("art goes with the die", "cut_affine(m, zones).inverse()", "cut_affine(m, zones)"),
    ),
    *_in(
        "output/findings.py",
        ("JSON without the limit", '"limit": _rounded(finding.limit, 4),', ""),
        ("millimetres are inches", "in_to_mm(value * INCHES_PER_UNIT[unit])", "value * INCHES_PER_UNIT[unit]"),
    ),
)  # fmt: skip

CHECKS = (
    *_in(
        "checks/bleed.py",
        ("bleed's stop is a warning", "Severity.STOP if paper_shows else Severity.WARN",
         "Severity.WARN"),
        ("bleed shifted by a twentieth", "SHORT_BY_IN = 0.003", "SHORT_BY_IN = 0.05"),
    ),
    *_in(
        "checks/safe.py",
        ("safe's severities turned round", "Severity.STOP if cut_off or nearly else Severity.WARN",
         "Severity.WARN if cut_off or nearly else Severity.STOP"),
        ("safe margin halved in the fix", "zones.inside(zones.safe_in - TOLD_WITHIN_IN)",
         "zones.inside(zones.safe_in / 2)"),
        ("ornament is a fault", 'if mark.reading != "ornament"]', "]"),
    ),
    *_in(
        "checks/left_in.py",
        ("hidden guides unseen", "(*inspection.painted, *inspection.hidden)",
         "(*inspection.painted,)"),
        ("dies' spot colours let pass", "if is_template(spot) and painted.layer not in steps:",
         "if False:"),
    ),
    *_in(
        "checks/size.py",
        ("swapped sides untold", '"the sides are swapped" if swapped else', '"the sides are swapped" if False else'),
        ("wrong size is a note", "return found(CHECK, Severity.STOP, context.page.piece.name, message, fix, limit, worst, place)",
         "return found(CHECK, Severity.NOTE, context.page.piece.name, message, fix, limit, worst, place)"),
    ),
    *_in(
        "checks/enclosure.py",
        ("too tight let pass", "if least >= TIGHT_CLEARANCE_IN - 1e-9:", "if least >= -1.0:"),
        ("ounce of another weight", "OUNCE_G = 28.349523125", "OUNCE_G = 31.1034768"),
    ),
    *_in(
        "checks/post.py",
        ("a dark envelope let pass", "least = float(min(red, green)) - BLACK_INK",
         "least = float(max(red, green)) + BLACK_INK"),
        ("weight step by usual weight", "if step is None or stack.most_g <= step:",
         "if step is None or stack.weight_g <= step:"),
    ),
    *_in(
        "reading/type_set.py",
        ("small type in wrong units", "row.height_in * PT_PER_INCH * SIZE_PER_X_HEIGHT",
         "row.height_in * 96 * SIZE_PER_X_HEIGHT"),
        ("reversed type is positive", "return bool(lighter > darker and lighter > LIGHTER)",
         "return bool(lighter < darker and lighter > LIGHTER)"),
    ),
    *_in(
        "checks/print_sense.py",
        ("page count unread", "if count == 1:\n        return []", "if count >= 1:\n        return []"),
    ),
    *_in(
        "checks/images.py",
        ("low resolution is a warning", "Severity.STOP if low else Severity.WARN", "Severity.WARN"),
        ("line art judged as a picture", "line_art = image.bits == 1", "line_art = False"),
    ),
    *_in(
        "checks/whites.py",
        ("white under nothing told", "if p.overprint and is_white(p.ink) and _covers_ink(p, painted)]",
         "if is_white(p.ink) and _covers_ink(p, painted)]"),
    ),
    *_in(
        "checks/minimum.py",
        ("the minimum itself too few", "if quantity >= least:", "if quantity > least:"),
    ),
    *_in(
        "checks/shift.py",
        ("sigma halved", "SIGMAS = 2.0", "SIGMAS = 4.0"),
        ("warned at any cut", "WARNED_SHARE = 0.01", "WARNED_SHARE = 0.5"),
    ),
    *_in(
        "checks/finding.py",
        ("accepted findings still count", "if f.accepted is None), default",
         "), default"),
    ),
    *_in(
        "reading/stack.py",
        ("liner's weight left out", 'papers.append(Paper("liner", lined, envelope.liner.stock, 1))', "pass"),
    ),
    *_in(
        "reading/showing.py",
        ("the client sees the die's lines", "left_out=numbers))", "left_out=frozenset()))"),
    ),
)  # fmt: skip

DOORS = (
    *_in(
        "errors.py",
        ("exit code of limits", "LIMIT = 7", "LIMIT = 5"),
    ),
    *_in(
        "units.py",
        ("points of 96 an inch", "PT_PER_INCH = 72", "PT_PER_INCH = 96"),
    ),
    *_in(
        "colour/ink.py",
        ("ink does not take the stock's colour", "if stock == (255, 255, 255):", "if True:"),
        ("channels of ink changed over", "np.stack([red, green, blue], axis=-1)",
         "np.stack([blue, green, red], axis=-1)"),
    ),
    *_in(
        "artwork/raster.py",
        ("pictures remembered for any page of a file", "key = (art.sha256, art.page, art.left_out, art.press, *given)",
         "key = (art.sha256, art.left_out, art.press, *given)"),
        ("pictures remembered with and without marks", "key = (art.sha256, art.page, art.left_out, art.press, *given)",
         "key = (art.sha256, art.page, art.press, *given)"),
        ("pictures remembered for any press",
         "key = (art.sha256, art.page, art.left_out, art.press, *given)",
         "key = (art.sha256, art.page, art.left_out, *given)"),
    ),
    *_in(
        "colour/printing.py",
        ("paper turned white", "ImageCms.Flags.NOWHITEONWHITEFIXUP | ", ""),
        ("ink on every paper as on the press's own", "< ALIKE_DE00", "< 1000"),
    ),
    *_in(
        "foreign/raster.py",
        ("overprint not simulated", "_separations(page, _COMPOSITE) or mupdf.fz_new_separations(1)",
         "_separations(page, _COMPOSITE) or _NONE()"),
        ("plates converted by the output intent",
         "page = opened.page if chosen is None else without_intent(art)", "page = opened.page"),
    ),
    *_in(
        "foreign/presses.py",
        ("the file's own press unheard", "return own or _chosen(art.press)", "return _chosen(art.press)"),
        ("spots stood for by the library's press", "        if spots:\n", "        if False:\n"),
        ("every page sent to the press", "if own is None and not _for_press(opened, art):",
         "if False:"),
    ),
    *_in(
        "envelopes/liner.py",
        ("liner a tenth beside its place", "return translation(left, top)",
         "return translation(left + 0.1, top)"),
    ),
    *_in(
        "asks/flatlay.py",
        ("no line whatever is asked", "line = opened.suite.cut_line if request.cut_line else None",
         "line = None"),
        ("line whatever is asked", "line = opened.suite.cut_line if request.cut_line else None",
         "line = opened.suite.cut_line"),
        ("plain light whatever is asked", "plain_picture if request.plain else flatlay_picture",
         "plain_picture"),
        ("things unasked", "scene.things if request.things else ()", "scene.things"),
    ),
    *_in(
        "asks/opening.py",
        ("arrangement unheard", "with_scene(read_suite(path), setting.scene, setting.arrange)",
         "with_scene(read_suite(path), setting.scene, None)"),
        ("scene unheard", "with_scene(read_suite(path), setting.scene, setting.arrange)",
         "with_scene(read_suite(path), None, setting.arrange)"),
        ("the client sees what is for the studio", "shown = for_client(suite)", "shown = suite"),
    ),
    *_in(
        "asks/piece.py",
        ("page unheard", 'whole("page", request.page, 1, PAGE_MAX),', "1,"),
        ("line left out of a piece", "picture = piece_picture(piece, ppi, line)",
         "picture = piece_picture(piece, ppi, None)"),
    ),
    *_in(
        "asks/proof.py",
        ("paper unheard", "suite = opened.suite if paper is None else", "suite = opened.suite if True else"),
    ),
    *_in(
        "asks/check.py",
        ("check ends well whatever is found", "return ExitCode(exit_code(self.findings))",
         "return ExitCode.DONE"),
        ("seed of the run unheard", 'whole("seed", request.seed, 0, SEED_MAX),', "1,"),
    ),
    *_in(
        "cli/flatlay_command.py",
        ("JSON without what is left out", '"left_out": list(answer.left_out),', ""),
    ),
    *_in(
        "cli/check_command.py",
        ("exit code unsaid", "raise typer.Exit(int(answer.exit_code))", "raise typer.Exit(0)"),
    ),
)  # fmt: skip

BREAKAGES: tuple[Breakage, ...] = (*RENDER, *OUTPUT, *CHECKS, *DOORS)
