"""Arrangements keep their rules on any suite, judged by polygons that the search does not use.

Distances, areas and overlaps are measured with shapely on the exact outlines; the limits
themselves (gap, overlap, angles, margins) are common practice, no source.
"""

import os
import subprocess
import sys
import time
from functools import cache

import numpy as np
import pytest
from shapely import affinity
from shapely import box as shapely_box
from shapely.geometry import Polygon

from mockup.render.arrangement import Arrangement, Item, arrange
from mockup.render.arrangement.model import ring_of
from tests.render.arrangement.suites import RATIOS, any_suite, arch, card, demo, envelope

# A suite a ratio; as many more run once by continuous integration.
CASES = [
    pytest.param(
        seed, list(RATIOS)[seed % 5], marks=[] if seed in range(1, 6) else pytest.mark.slow
    )
    for seed in range(10)
]


@cache
def arranged(seed: int, ratio: str) -> Arrangement:
    return arrange(any_suite(seed), RATIOS[ratio], seed)


@cache
def demo_arranged(ratio: float, items: int = 9) -> Arrangement:
    return arrange(demo()[:items], ratio)


def on_table(items: list[Item], arrangement: Arrangement) -> list[tuple[Item, Polygon]]:
    """Items and their outlines, bottom to top, turned by shapely about their boxes' centres."""
    by_name = {item.name: item for item in items}
    return [
        (by_name[p.name], moved(by_name[p.name], by_name[p.name].outline, p))
        for p in arrangement.placed
    ]


def moved(item: Item, ring: np.ndarray, placed) -> Polygon:
    centre = item.box.centre
    turned = affinity.rotate(Polygon(ring), placed.angle_deg, origin=(centre.x, centre.y))
    return affinity.translate(turned, placed.centre.x - centre.x, placed.centre.y - centre.y)


@pytest.mark.parametrize(("seed", "ratio"), CASES)
def test_any_suite_is_laid_out_by_the_rules(seed: int, ratio: str) -> None:
    items = any_suite(seed)
    arrangement = arranged(seed, ratio)
    laid = on_table(items, arrangement)
    assert sorted(item.name for item, _ in laid) == sorted(item.name for item in items)
    assert [p.layer for p in arrangement.placed] == list(range(len(items)))

    frame = arrangement.frame
    assert frame.width_in / frame.height_in == pytest.approx(RATIOS[ratio])
    margin = frame.margin_in - 0.01
    room = shapely_box(margin, margin, frame.width_in - margin, frame.height_in - margin)
    for low, (item, body) in enumerate(laid):
        assert room.contains(body)
        placed = arrangement.placed[low]
        for _, above in laid[low + 1 :]:
            for region in item.keep_clear:
                assert moved(item, ring_of(region), placed).intersection(above).area == 0
            overlap = body.intersection(above)
            deep = not overlap.buffer(-0.125 + 1e-6).is_empty  # holds a disc 0.25 in across
            assert deep or body.distance(above) >= 0.25 - 1e-6


@pytest.mark.parametrize(("seed", "ratio"), CASES)
def test_angles_are_small_and_the_main_piece_stands_nearly_straight(seed: int, ratio: str) -> None:
    items = any_suite(seed)
    main = next(item.name for item in items if item.role == "main")
    for placed in arranged(seed, ratio).placed:
        assert abs(placed.angle_deg) <= (3 if placed.name == main else 8)


@pytest.mark.parametrize("ratio", RATIOS)
def test_the_demo_reads_as_a_stack_and_fills_the_picture(ratio: str) -> None:
    items = demo()
    arrangement = demo_arranged(RATIOS[ratio])
    laid = on_table(items, arrangement)
    union = laid[0][1]
    for _, body in laid[1:]:
        union = union.union(body)
    fill = union.area / (arrangement.frame.width_in * arrangement.frame.height_in)
    assert 0.5 <= fill <= 0.7
    bodies = {item.name: body for item, body in laid}
    on_envelope = bodies["invitation"].intersection(bodies["outer"]).area
    assert 0.08 <= on_envelope / bodies["invitation"].area <= 0.9
    order = [item.name for item, _ in laid]
    assert order.index("outer") < order.index("invitation")
    outer = next(item for item in items if item.name == "outer")
    lining = moved(outer, outer.show[0], arrangement.placed[order.index("outer")])  # type: ignore[arg-type]
    hidden = sum(lining.intersection(bodies[name]).area for name in order if name != "outer")
    assert hidden / lining.area < 0.25


def test_a_single_piece_lies_straight_in_the_middle() -> None:
    for ratio in RATIOS.values():
        arrangement = arrange([arch()], ratio)
        (placed,), frame = arrangement.placed, arrangement.frame
        assert placed.angle_deg == 0
        assert placed.centre == pytest.approx((frame.width_in / 2, frame.height_in / 2))


def test_a_card_all_type_is_never_overlapped_and_still_arranged() -> None:
    items = [card(f"card {k}", 5, 7, 1.0, "main" if k == 0 else "card") for k in range(4)]
    bodies = [body for _, body in on_table(items, arrange(items, 1.5))]
    for k, body in enumerate(bodies):
        assert all(body.distance(other) >= 0.25 - 1e-6 for other in bodies[:k])


def test_the_nth_arrangements_are_distinct_and_each_is_the_same_alone() -> None:
    items = demo()[:3]
    first = [arrange(items, 1.5, nth=n) for n in (1, 2, 3)]
    assert first[1] == arrange(items, 1.5, nth=2)
    for k, one in enumerate(first):
        for other in first[:k]:
            there = {p.name: p for p in other.placed}
            shifts = [np.hypot(*np.subtract(p.centre, there[p.name].centre)) for p in one.placed]
            turns = [abs(p.angle_deg - there[p.name].angle_deg) for p in one.placed]
            assert max(shifts) > 0.5 or max(turns) >= 4


def test_another_seed_is_another_arrangement() -> None:
    assert demo_arranged(1.0, 3).placed != arrange(demo()[:3], 1.0, seed=2).placed


def test_the_order_of_the_items_does_not_matter() -> None:
    items = demo()[:3]
    assert demo_arranged(1.0, 3).placed == arrange(items[::-1], 1.0).placed


def test_the_same_in_another_process_with_other_hashes() -> None:
    code = (
        "from tests.render.arrangement.suites import demo\n"
        "from mockup.render.arrangement import arrange\n"
        "print([(p.name, p.angle_deg, tuple(p.centre)) for p in arrange(demo()[:3], 0.8).placed])"
    )
    told = [(p.name, p.angle_deg, tuple(p.centre)) for p in arrange(demo()[:3], 0.8).placed]
    environment = {**os.environ, "PYTHONHASHSEED": "7"}
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=environment
    )
    assert done.stdout.strip() == str(told)


def test_what_is_asked_to_lie_above_lies_above() -> None:
    items = demo()
    for pair in (("reply", "invitation"), ("invitation", "reply")):
        order = [p.name for p in arrange(items, 1.5, above=(pair,)).placed]
        assert order.index(pair[0]) > order.index(pair[1])


def test_a_circle_of_what_lies_above_is_refused() -> None:
    circle = (("reply", "details"), ("details", "reply"))
    with pytest.raises(ValueError, match="circle"):
        arrange(demo(), 1.5, above=circle)


@pytest.mark.parametrize("nth", [0, -1])
def test_refusals(nth: int) -> None:
    with pytest.raises(ValueError, match="nth counts from 1"):
        arrange(demo(), 1.5, nth=nth)
    with pytest.raises(ValueError, match="at least one item"):
        arrange([], 1.5)


def test_a_usual_suite_takes_well_under_a_second_of_one_core() -> None:
    items = [*demo(), envelope("reply envelope", 5.125, 3.625, 2.0)]
    start = time.process_time()
    arrange(items, 1.5)
    assert time.process_time() - start < 1.5  # measured 0.3 s; room for slow machines
