"""Dominant colours: made pictures of known areas and colours, and k-means as the outside judge."""

import numpy as np
import pytest
from PIL import Image, ImageDraw
from scipy.cluster.vq import kmeans2
from skimage.color import deltaE_ciede2000

from mockup.colour.palette import MOST, dominant
from mockup.colour.printed_lab import lab_of_bytes, lab_of_rgb
from tests.quickly import quickly

RUST, INK, MIST, WHITE = (168, 71, 42), (29, 49, 77), (143, 160, 156), (255, 255, 255)
SIZE = (500, 700)
FINER = 4  # drawn so much larger and averaged: every slanting edge is a mixture


def palette(picture, paper=WHITE):
    pixels = np.asarray(picture)
    lab = lab_of_bytes(pixels)
    bare = np.linalg.norm(lab - lab_of_rgb(paper), axis=2) < 2
    return dominant(lab, np.ones(pixels.shape[:2], bool), bare)


def drawn(draw, ground=WHITE):
    """A picture whose shapes are drawn in pixels of the finer picture."""
    large = Image.new("RGB", (SIZE[0] * FINER, SIZE[1] * FINER), ground)
    draw(ImageDraw.Draw(large))
    return large.resize(SIZE, Image.Resampling.BOX)


def apart(lab, rgb):
    return float(deltaE_ciede2000(np.array(lab), lab_of_rgb(rgb)))


def shapes(pen):
    pen.ellipse((200, 200, 1200, 1200), fill=RUST)
    pen.rectangle((0, 1500, 2000, 2799), fill=INK)
    pen.polygon([(1500, 50), (1950, 750), (1300, 800)], fill=MIST)


def test_colours_and_areas_are_those_that_were_drawn():
    found = palette(drawn(shapes))
    page = 2000 * 2800
    triangle = abs(450 * 750 - (-200) * 700) / 2
    areas = (1300 * 2000 / page, np.pi * 500**2 / page, triangle / page)
    assert len(found) == 3
    for each, rgb, area in zip(found, (INK, RUST, MIST), areas, strict=True):
        assert apart(each.lab, rgb) < 0.5
        assert each.share == pytest.approx(area, abs=0.004)
        assert each.solid
    assert sum(each.of_ink for each in found) == pytest.approx(1, abs=0.01)


def test_a_place_amid_a_colour_has_that_colour():
    picture = drawn(shapes)
    for each in palette(picture):
        row, column = each.at
        assert apart(each.lab, picture.getpixel((column, row))) < 0.5


def test_two_colours_a_near_miss_apart_stay_two():
    def halves(pen):
        pen.rectangle((0, 0, 999, 2800), fill=(155, 178, 154))
        pen.rectangle((1000, 0, 2000, 2800), fill=(147, 164, 139))

    found = palette(drawn(halves))
    assert len(found) == 2
    assert all(each.share == pytest.approx(0.5, abs=0.002) for each in found)
    assert min(apart(each.lab, (155, 178, 154)) for each in found) < 0.5
    assert min(apart(each.lab, (147, 164, 139)) for each in found) < 0.5


def test_the_edges_of_many_small_shapes_are_no_colours():
    def dots(pen):
        for x in range(40, 2000, 80):
            for y in range(40, 2800, 80):
                pen.ellipse((x - 22, y - 22, x + 22, y + 22), fill=INK)

    found = palette(drawn(dots, (241, 232, 214)))
    assert len(found) == 2
    assert apart(found[0].lab, (241, 232, 214)) < 0.5
    assert apart(found[1].lab, INK) < 1


def test_lines_of_a_pixel_or_two_give_their_own_ink_and_no_mixture():
    def strokes(pen):
        for x in range(0, 2000, 60):
            pen.line((x, 0, x + 300, 2799), fill=INK, width=11)

    found = palette(drawn(strokes))
    assert len(found) == 1 and apart(found[0].lab, INK) < 2


def test_a_flood_is_the_one_colour_and_a_blank_page_has_none():
    (flood,) = palette(Image.new("RGB", SIZE, INK))
    assert apart(flood.lab, INK) < 0.1
    assert flood.share == flood.of_ink == 1
    assert palette(Image.new("RGB", SIZE, WHITE)) == ()
    assert palette(Image.new("RGB", SIZE, INK), paper=INK) == ()


@pytest.mark.parametrize("size", [(1, 1), (1, 9), (2, 1)])
def test_a_picture_of_hardly_a_pixel_has_its_colour(size):
    (only,) = palette(Image.new("RGB", size, RUST))
    assert apart(only.lab, RUST) < 0.1


def test_one_inked_pixel_is_found_and_takes_next_to_nothing():
    picture = Image.new("RGB", SIZE, WHITE)
    picture.putpixel((70, 90), INK)
    (only,) = palette(picture)
    assert only.at == (90, 70) and only.share < 1e-5


def test_a_gradient_is_a_passage_and_a_solid_beside_it_is_not():
    rows = np.linspace(0, 255, SIZE[1])[:, None, None]
    pixels = np.broadcast_to(rows * [0.3, 0.5, 1.0], (SIZE[1], SIZE[0], 3)).astype(np.uint8).copy()
    assert all(not each.solid for each in palette(Image.fromarray(pixels)))
    pixels[:200] = RUST
    solid = [each for each in palette(Image.fromarray(pixels)) if each.solid]
    assert len(solid) == 1 and apart(solid[0].lab, RUST) < 0.5


def test_a_grainy_flood_is_still_the_colour_of_the_page():
    chance = np.random.default_rng(3)
    grain = chance.normal((150, 170, 150), 2.5, (SIZE[1], SIZE[0], 3))
    first, *_ = palette(Image.fromarray(np.clip(np.rint(grain), 0, 255).astype(np.uint8)))
    assert first.solid and apart(first.lab, (150, 170, 150)) < 1


def cloudy(chance):
    """A picture without a plain colour: smooth patches between few random ones."""
    rough = chance.normal(0, 1, (9, 6, 3))
    rough = (rough - rough.min()) / (rough.max() - rough.min()) * 255
    return Image.fromarray(rough.astype(np.uint8)).resize(SIZE, Image.Resampling.BICUBIC)


@pytest.mark.parametrize("number", quickly(range(3), lambda n: n == 0))
def test_a_photograph_is_summed_up_nearly_as_well_as_by_k_means(number):
    """SciPy's k-means with as many colours; scikit-image's Lab and CIEDE2000."""
    picture = cloudy(np.random.default_rng(number))
    found = np.array([each.lab for each in palette(picture)])
    assert 2 <= len(found) <= MOST
    lab = lab_of_bytes(np.asarray(picture))[::7, ::7].reshape(-1, 3)
    means, _ = kmeans2(lab, len(found), minit="++", rng=np.random.default_rng(0), iter=40)

    def off(colours):
        return np.min([deltaE_ciede2000(lab, c[None]) for c in colours], axis=0).mean()

    assert off(found) < 1.5 * off(means)


def test_flat_art_agrees_with_k_means_begun_at_the_truth():
    picture = drawn(shapes)
    lab = lab_of_bytes(np.asarray(picture)).reshape(-1, 3)
    start = np.array([lab_of_rgb(c) for c in (WHITE, INK, RUST, MIST)])
    means, labels = kmeans2(lab, start, minit="matrix", iter=10)
    for each, number in zip(palette(picture), (1, 2, 3), strict=True):
        assert deltaE_ciede2000(np.array(each.lab), means[number]) < 1
        assert each.share == pytest.approx(np.mean(labels == number), abs=0.005)


def test_the_same_picture_has_the_same_palette():
    picture = cloudy(np.random.default_rng(8))
    assert palette(picture) == palette(picture)
