"""A piece cut to its die: areas against closed forms, pixels against the uncut art."""

import math
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from mockup.artwork.art import art_of
from mockup.artwork.page import place_card, read_page
from mockup.artwork.raster import RasterJob, rasterise
from mockup.colour.srgb import decode
from mockup.dies import Die, make_die
from mockup.geometry.affine import IDENTITY, rotation
from mockup.geometry.point import Point
from mockup.pixels import View, view_around
from mockup.render.cutline import CutLine
from mockup.render.piece import cut_out, piece_picture, piece_view
from mockup.suite.reading import read_suite
from mockup.suite.suite import CutLineChoice
from tests.quickly import quickly
from tests.render.demo_in_rgb import in_rgb

NO_LINE = None
SQRT3 = math.sqrt(3)

# Closed forms for a 5 x 7 in card (a circle for 5 x 5); any handbook of plane geometry.
AREAS = {
    "rectangle": (5, 7, {}, 35.0),
    "rounded-corner": (5, 7, {"radius": 0.25}, 35 - (4 - math.pi) * 0.25**2),
    "ellipse": (5, 7, {}, math.pi * 2.5 * 3.5),
    "circle": (5, 5, {}, math.pi * 2.5**2),
    "round-arch": (5, 7, {}, 5 * (7 - 2.5) + math.pi * 2.5**2 / 2),
    # An equilateral arch: two segments of a circle whose radius is the span, less their overlap.
    "lancet-arch": (5, 7, {}, 5 * (7 - 2.5 * SQRT3) + 25 * (math.pi / 3 - SQRT3 / 4)),
    "ticket-corner": (5, 7, {"radius": 0.5}, 35 - math.pi * 0.5**2),
    # Lobes of radius 1/4 touching, their centres on a rectangle inset by the radius.
    "scalloped-edge": (
        5, 7, {"lobe": 0.5},
        4.5 * 6.5 + 40 * math.pi * 0.25**2 / 2 + 3 * math.pi * 0.25**2,
    ),
}  # fmt: skip


def die_of(name: str) -> tuple[Die, float]:
    width, height, parameters, area = AREAS[name]
    return make_die(name, width, height, parameters), area


@pytest.mark.parametrize("name", AREAS)
@pytest.mark.parametrize("ppi", quickly([300, 600], lambda n: n == 0))
def test_the_masked_area_is_that_of_the_closed_form(name: str, ppi: int) -> None:
    die, area = die_of(name)
    view = view_around(die.shape.box, ppi)
    picture = np.zeros((view.height_px, view.width_px, 3), np.uint8)
    alpha = cut_out(picture, die.shape, NO_LINE, view)[:, :, 3]
    assert alpha.sum(dtype=np.float64) / 255 / ppi**2 == pytest.approx(area, rel=5e-4)


@pytest.mark.parametrize("name", AREAS)
def test_pixels_inside_are_untouched_and_outside_are_clear(name: str) -> None:
    die, _ = die_of(name)
    view = piece_view(die.shape, 100, 0.5)
    rng = np.random.default_rng(5)
    picture = rng.integers(0, 256, (view.height_px, view.width_px, 3), np.uint8)
    line = CutLine((200, 30, 90), 0.5)
    cut = cut_out(picture, die.shape, line, view)
    middle = (view.height_px // 2, view.width_px // 2)
    inside = np.s_[middle[0] - 60 : middle[0] + 60, middle[1] - 60 : middle[1] + 60]
    assert np.array_equal(cut[inside][..., :3], picture[inside])
    assert (cut[inside][..., 3] == 255).all()
    assert not cut[cut[:, :, 3] == 0].any()
    assert (cut[0] == 0).all()


def test_an_edge_is_blended_in_linear_light() -> None:
    # Half a white line over half a black card is 188 in sRGB (IEC 61966-2-1), not 128.
    die = make_die("rectangle", 1, 1)
    view = View(-0.5, -0.5, 20, 20, 10)
    black = np.zeros((20, 20, 3), np.uint8)
    cut = cut_out(black, die.shape, CutLine((255, 255, 255), 7.2 / 2), view)
    # The stroke reaches 1/4 pixel in: a quarter white over black in the first column inside.
    quarter = decode(cut[10, 5, :3])
    assert cut[10, 5, 3] == 255
    assert quarter == pytest.approx(0.25, abs=0.004)


def test_the_picture_of_a_demo_piece_is_its_art_on_its_stock(demo_suite: Path) -> None:
    suite = read_suite(demo_suite)
    picture = piece_picture(suite.piece("reply"), 100, CutLineChoice(None, 0.5))
    assert picture.shape[2] == 4
    red, green, blue = picture[picture.shape[0] // 2, 40, :3]
    assert red > 140 and red > 1.7 * green > 1.2 * blue  # the rust flood
    assert picture[3, 3, 3] == 0  # the ticket's corner is cut away


def test_art_agrees_with_a_second_renderer(art: Path, tmp_path: Path) -> None:
    """PDFium, a renderer of other makers, draws the demo pages the same.

    288 ppi makes the sheets whole pixels; the inks are made RGB, for PDFium applies no ICC.
    Measured: mean of 8-bit differences 0.27 (invitation), 0.88 (details), 99th percentile of 8x8
    boxes 2.0 and 14.1. The last is live type, whose glyphs both renderers move to whole or part
    pixels: against eightfold supersampling the RMS errors there are 9.4 (ours) and 11.1 (PDFium).
    """
    for name, size, limit in (("invitation", (5, 7), 3.0), ("details", (4.25, 5.5), 16.0)):
        light = in_rgb(art / f"{name}.pdf", tmp_path / f"{name}.pdf")
        page = read_page(art_of(light))
        placement = place_card(page, *size, 0.125)
        view = view_around((0, 0, *size), 288, 0.125)
        ours = rasterise([RasterJob(page, placement, IDENTITY, view)])[0].on_white
        theirs = pypdfium2.PdfDocument(light)[0].render(scale=4).to_numpy()
        difference = np.abs(ours.astype(int) - theirs[:, :, ::-1].astype(int))
        assert difference.mean() < 1.0
        boxes = difference[: view.height_px // 8 * 8, : view.width_px // 8 * 8].mean(axis=2)
        means = boxes.reshape(view.height_px // 8, 8, -1, 8).mean(axis=(1, 3))
        assert np.quantile(means, 0.99) < limit


def test_turning_the_art_does_not_blur_it(art: Path) -> None:
    """Drawn straight through the turned matrix, art is nearer the truth than resampled art.

    The truth is the same page drawn six times finer and averaged; the usual way, beside it, is
    Pillow's bicubic rotation of the upright picture. All three in ink, for ink is what is averaged
    at an edge. Measured RMS, of 255: 0.56 against 3.38.
    """
    page = read_page(art_of(art / "invitation.pdf"))
    placement = place_card(page, 5, 7, 0.125)
    turned = rotation(7, Point(2.5, 3.5))
    view = View(0.0, 0.0, 1000, 1400, 200)
    part, fine = View(1.25, 1.75, 500, 700, 200), View(1.25, 1.75, 3000, 4200, 1200)
    jobs = [
        RasterJob(page, placement, IDENTITY, view),
        RasterJob(page, placement, turned, part),
        RasterJob(page, placement, turned, fine),
    ]
    upright, direct, sixfold = (plates.drawn.process for plates in rasterise(jobs))
    truth = sixfold.reshape(700, 6, 500, 6, 4).mean(axis=(1, 3))
    usual = Image.fromarray(upright, "CMYK").rotate(-7, Image.Resampling.BICUBIC)
    resampled = np.asarray(usual.crop((250, 350, 750, 1050)))

    def rms(picture: np.ndarray) -> float:
        return float(np.sqrt(((picture - truth) ** 2).mean()))

    assert rms(direct) < 1.5
    assert rms(direct) < 0.3 * rms(resampled)
