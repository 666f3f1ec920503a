"""Views: pixel grids laid over inches."""

from mockup.pixels import View, view_around


def test_a_view_around_a_box_ends_on_its_pixel_edges() -> None:
    view = view_around((0, 0, 5, 7), 300)
    assert (view.width_px, view.height_px) == (1500, 2100)


def test_a_margin_moves_the_corner_out_by_whole_pixels() -> None:
    view = view_around((0, 0, 1, 1), 100, 0.02)
    assert (view.left_in, view.width_px) == (-0.02, 104)


def test_a_view_within_another_shares_its_grid_and_is_cut_to_it() -> None:
    whole = View(0, 0, 100, 80, 10)
    part = whole.within((1.04, -5, 3.0, 2.0))
    assert part.offset_in(whole) == (10, 0)
    assert (part.width_px, part.height_px) == (20, 20)
    assert whole.within((20, 20, 30, 30)).width_px == 0
