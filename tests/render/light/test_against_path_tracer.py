"""The engine against mitsuba 3's path tracer (Jakob et al. 2022) on the same small scene."""

from __future__ import annotations

import pytest

from mockup.suite.scene_file import scene_names

pytest.importorskip("mitsuba", reason="the path tracer is not installed; `make test-slow` does")

SCENES = ["supper", "slate", "stack", *(f"at-{name}" for name in scene_names())]


@pytest.mark.slow
@pytest.mark.parametrize("name", SCENES)
def test_lit_scene_against_the_path_tracer(name: str):
    """Mean CIEDE2000 over the picture, inside shadows and along edges, exposure as it is."""
    from benchmarks import light_reference, light_scenes

    if light_reference.start() != "llvm_ad_rgb":
        pytest.skip("the path tracer finds no LLVM of 16 or newer to compile with")
    size = light_scenes.SCENES[name](1.0)
    ppi = 250 / size.width_in
    scene = light_scenes.SCENES[name](ppi)
    layers, lamps = light_reference.layers_of(scene, ppi)
    halves = light_reference.traced(scene, ppi, layers, lamps, 256)
    true = (halves[0] + halves[1]) / 2
    made = light_reference.ours(scene, ppi, layers, lamps)
    found = light_reference.compare(
        made, true, *light_reference.zones(scene, ppi, layers), fitted=False
    )
    assert found["mean"] < 0.3
    assert found["shadow"] < 0.6
    assert found["edges"] < 0.8
    assert found["ssim"] > 0.985


@pytest.mark.slow
@pytest.mark.parametrize("name", ["half-open", "half-open-top", "tent", "half-drawn"])
def test_folded_cards_against_the_path_tracer(name: str):
    """Mean CIEDE2000 with and without a fitted exposure; panels made apart, as boxes in space."""
    from benchmarks import light_folds, light_reference

    if light_reference.start() != "llvm_ad_rgb":
        pytest.skip("the path tracer finds no LLVM of 16 or newer to compile with")
    ppi = 250 / light_folds.SCENES[name](1.0).width_in
    scene = light_folds.SCENES[name](ppi)
    layers, lamps = light_reference.layers_of(scene, ppi)
    apart = light_folds.SOLIDS.get(name, dict)()
    halves = light_reference.traced(scene, ppi, layers, lamps, 128, apart)
    true = (halves[0] + halves[1]) / 2
    made = light_reference.ours(scene, ppi, layers, lamps)
    where = light_reference.zones(scene, ppi, layers, apart)
    found = light_reference.compare(made, true, *where)
    assert found["exposure"] == pytest.approx(1, abs=0.03)
    assert found["mean"] < 0.5  # of which the tracer's own noise is about 0.25
    assert light_reference.compare(made, true, *where, fitted=False)["mean"] < 0.5
