"""Breakages to plant at the doors: what is asked, read from foreign files, shown in colour."""

from __future__ import annotations

from benchmarks.breakage import planted

DOORS = (
    *planted(
        "errors.py",
        ("exit code of limits", "LIMIT = 7", "LIMIT = 5"),
    ),
    *planted(
        "units.py",
        ("points of 96 an inch", "PT_PER_INCH = 72", "PT_PER_INCH = 96"),
    ),
    *planted(
        "colour/ink.py",
        ("ink does not take the stock's colour", "if stock == (255, 255, 255):", "if True:"),
        ("channels of ink changed over", "np.stack([red, green, blue], axis=-1)",
         "np.stack([blue, green, red], axis=-1)"),
    ),
    *planted(
        "artwork/raster.py",
        ("pictures remembered for any page of a file", "key = (art.sha256, art.page, art.left_out, *printed, *given)",
         "key = (art.sha256, art.left_out, *printed, *given)"),
        ("pictures remembered with and without marks", "key = (art.sha256, art.page, art.left_out, *printed, *given)",
         "key = (art.sha256, art.page, *printed, *given)"),
        ("pictures remembered for any press",
         "key = (art.sha256, art.page, art.left_out, *printed, *given)",
         "key = (art.sha256, art.page, art.left_out, *given)"),
    ),
    *planted(
        "colour/printing.py",
        ("paper turned white", "_FLAGS = ImageCms.Flags.NOWHITEONWHITEFIXUP",
         "_FLAGS = ImageCms.Flags(0)"),
        ("ink on every paper as on the press's own", "< ALIKE_DE00", "< 1000"),
    ),
    *planted(
        "foreign/raster.py",
        ("overprint not simulated", "spots_of(page, _COMPOSITE) or mupdf.fz_new_separations(1)",
         "spots_of(page, _COMPOSITE) or NO_SPOTS()"),
        ("plates converted by the output intent",
         "page = opened.page if chosen is None else without_intent(art)", "page = opened.page"),
    ),
    *planted(
        "foreign/presses.py",
        ("the file's own press unheard", "return own or _chosen(art.press)", "return _chosen(art.press)"),
        ("spots stood for by the library's press", "        if spots:\n", "        if False:\n"),
        ("every page sent to the press", "if own is None and not _for_press(opened, art):",
         "if False:"),
    ),
    *planted(
        "envelopes/liner.py",
        ("liner a tenth beside its place", "return translation(left, top)",
         "return translation(left + 0.1, top)"),
    ),
    *planted(
        "asks/flatlay.py",
        ("no line whatever is asked", "line = suite.cut_line if wanted else None",
         "line = None"),
        ("line whatever is asked", "line = suite.cut_line if wanted else None",
         "line = suite.cut_line"),
        ("plain light whatever is asked", "plain_picture if request.plain else flatlay_picture",
         "plain_picture"),
    ),
    *planted(
        "asks/things.py",
        ("things unasked", "return scene.things if wanted else ()", "return scene.things"),
        ("her own things left lying", "if folder is not None:", "if folder is None:"),
    ),
    *planted(
        "render/things/places.py",
        ("stamps on a back", "isinstance(each.back, FaceUp))", "isinstance(each.back, ClosedBack))"),
    ),
    *planted(
        "asks/opening.py",
        ("arrangement unheard", "with_scene(own, other, setting.arrange)",
         "with_scene(own, other, None)"),
        ("scene unheard", "with_scene(own, other, setting.arrange)",
         "with_scene(own, None, setting.arrange)"),
        ("the client sees what is for the studio", "shown = for_client(suite)", "shown = suite"),
    ),
    *planted(
        "asks/piece.py",
        ("page unheard", 'whole("page", request.page, 1, PAGE_MAX),', "1,"),
        ("line left out of a piece", "picture = piece_picture(piece, ppi, line)",
         "picture = piece_picture(piece, ppi, None)"),
    ),
    *planted(
        "asks/proof.py",
        ("paper unheard", "paper=paper or opened.suite.paper", "paper=opened.suite.paper"),
    ),
    *planted(
        "asks/check.py",
        ("check ends well whatever is found", "return ExitCode(exit_code(self.findings))",
         "return ExitCode.DONE"),
        ("seed of the run unheard", 'whole("seed", request.seed, 0, SEED_MAX),', "1,"),
    ),
    *planted(
        "cli/flatlay_command.py",
        ("JSON without what is left out", '"left_out": list(answer.left_out),', ""),
    ),
    *planted(
        "cli/check_command.py",
        ("exit code unsaid", "raise typer.Exit(int(answer.exit_code))", "raise typer.Exit(0)"),
    ),
)  # fmt: skip
