"""Foil and pressed paper against mitsuba 3's path tracer (Jakob et al. 2022): walls as a mesh."""

from __future__ import annotations

import pytest

pytest.importorskip("mitsuba", reason="the path tracer is not installed; `make test-slow` does")


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "zones"), [("pressed", ("pressed", "embossed")), ("foil", ("foil",))]
)
def test_finishes_against_the_path_tracer(name: str, zones: tuple[str, ...]):
    """Mean CIEDE2000 where each is, as it comes and with the exposure fitted on bare paper."""
    from benchmarks import light_finishes, light_reference

    if light_reference.start() != "llvm_ad_rgb":
        pytest.skip("the path tracer finds no LLVM of 16 or newer to compile with")
    found, _ = light_finishes.measured(name, 250, 128)
    assert found["exposure"]["factor"] == pytest.approx(1, abs=0.006)  # measured: 0.996
    for zone in zones:
        assert found["fitted"][zone] < 1.5
        assert found["unfitted"][zone] < 1.5


@pytest.mark.slow
def test_foil_on_dark_paper_against_the_path_tracer():
    """On navy an outline a little too bright or too dark tells at once; half of it is noise."""
    from benchmarks import light_finishes, light_reference

    if light_reference.start() != "llvm_ad_rgb":
        pytest.skip("the path tracer finds no LLVM of 16 or newer to compile with")
    found, _ = light_finishes.measured("foil", 250, 256, light_finishes.NAVY)
    assert found["fitted"]["foil"] < 1.5  # measured: 1.43
    assert found["unfitted"]["foil"] < 1.5
