"""What is found on the printed sides of envelopes, and of type set on them."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.checks.envelope_sides import check_sides
from mockup.checks.envelope_type import check_type
from mockup.checks.finding import Finding, Severity
from mockup.checks.post import check_post
from mockup.checks.settings import Settings
from mockup.checks.suite_context import SuiteContext
from mockup.envelopes.flap import closed_flap
from mockup.errors import InputError
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf

HEAD = 'title = "Supper"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\n[envelopes.outer]\nsize = "A7"\n'
WIDE, HIGH = 7.25, 5.25


def context_of(folder: Path, more: str, operators: tuple[str, ...] = ("us",)) -> SuiteContext:
    make_pdf(folder / "card.pdf")
    (folder / "suite.toml").write_text(HEAD + more, encoding="utf-8")
    return SuiteContext(read_suite(folder / "suite.toml"), Settings(operators=operators))


def square(left_in: float, top_in: float, side_in: float = 0.2) -> str:
    """Returns a black square by its place from the face's top left."""
    x, y = left_in * 72, (HIGH - top_in - side_in) * 72
    return f"0 g {x:g} {y:g} {side_in * 72:g} {side_in * 72:g} re f"


def found_on_face(folder: Path, content: str, more: str = "") -> list[Finding]:
    make_pdf(folder / "face.pdf", (WIDE, HIGH), content)
    return check_sides(context_of(folder, f'face = "face.pdf"\n{more}'))


def words(findings: list[Finding]) -> str:
    return "; ".join(each.message for each in findings if each.check in ("face", "post"))


@pytest.mark.parametrize(
    "at, told",
    [
        ((0.6, 0.6), ""),  # the upper left: for the sender
        ((3.0, 1.9), ""),  # above the area that machines read
        ((3.0, 3.0), "address read area"),  # USPS DMM 202.2.1: 2 3/4 in from the bottom and less
        ((1.5, 4.75), ""),  # left of the bars: USPS Publication 28 A1, 4 3/4 in from the right
        ((4.0, 4.75), "barcode clear zone"),
        ((6.5, 0.6), "postage corner"),
        ((3.0, 0.1), "comes within 0."),
        ((0.0, 2.0), "runs to the edge"),
    ],
)
def test_art_is_told_where_it_lies_in_the_way(
    tmp_path: Path, at: tuple[float, float], told: str
) -> None:
    findings = found_on_face(tmp_path, square(*at))
    said = words(findings)
    assert (told in said) if told else said == ""
    for each in findings:
        if each.at is not None and each.check in ("face", "post"):
            assert at[0] - 0.01 <= each.at.x <= at[0] + 0.21
            assert at[1] - 0.01 <= each.at.y <= at[1] + 0.21


def test_how_near_the_edge_art_comes_is_measured(tmp_path: Path) -> None:
    (edge,) = [e for e in found_on_face(tmp_path, square(3, 0.1)) if e.check == "face"]
    assert edge.value == pytest.approx(0.1, abs=0.006) and edge.limit == 0.25


def test_places_on_a_flap_are_told_from_the_backs_top_left(tmp_path: Path) -> None:
    """The flap's box begins a shoulder, 1/16 in, inside the envelope."""
    spec = context_of(tmp_path, "").suite.envelopes[0].spec
    box = closed_flap(spec).box
    y = (box.height - 0.5 - 0.2) * 72
    content = f"0 G 0.1 w 72 {y:g} m 108 {y:g} l S"
    make_pdf(tmp_path / "flap.pdf", (box.width, box.height), content)
    findings = check_sides(context_of(tmp_path, 'flap_art = "flap.pdf"\n'))
    (line,) = [each for each in findings if each.check == "hairline"]
    assert line.side == "back" and line.message.startswith("flap: ")
    assert line.at == pytest.approx((1 + box.left, 0.7), abs=0.01)


def test_how_much_of_a_place_is_covered(tmp_path: Path) -> None:
    """A square of an inch in an area of 6.25 by 2.125 in."""
    (found,) = [e for e in found_on_face(tmp_path, square(2, 3, 1)) if e.check == "post"]
    assert found.value == pytest.approx(1 / (6.25 * 2.125), rel=0.03)
    assert found.severity is Severity.WARN and found.source == "USPS DMM 202.2.1"


def test_white_ink_on_dark_paper_is_seen_as_ink(tmp_path: Path) -> None:
    """On white it would not be."""
    make_pdf(tmp_path / "face.pdf", (WIDE, HIGH), square(3, 3, 0.5))
    more = 'colour = "#22385a"\nface = { art = "face.pdf", white = "art-as-white" }\n'
    assert "address read area" in words(check_sides(context_of(tmp_path, more)))


def test_art_under_the_address_is_told(tmp_path: Path) -> None:
    more = 'address = ["Odile Farthing", "Samphire Hard"]\n'
    assert "under the address" in words(found_on_face(tmp_path, square(3.4, 3.5), more))
    assert "under the address" not in words(found_on_face(tmp_path, square(0.7, 2.6), more))


def test_the_page_is_asked_what_a_cards_is(tmp_path: Path) -> None:
    """A hairline of 0.1 pt, on the envelope."""
    findings = found_on_face(tmp_path, "0 G 0.1 w 50 300 m 120 300 l S")
    assert [e.piece for e in findings if e.check == "hairline"] == ["envelopes.outer"]
    assert all(e.message.startswith("face: ") for e in findings if e.check == "hairline")


def test_an_empty_page_and_art_of_another_size_stop(tmp_path: Path) -> None:
    (empty,) = found_on_face(tmp_path, "")
    assert empty.severity is Severity.STOP and empty.message.startswith("face: ")
    make_pdf(tmp_path / "face.pdf", (HIGH, WIDE))
    (size,) = check_sides(context_of(tmp_path, 'face = "face.pdf"\n'))
    assert size.check == "size" and size.severity is Severity.STOP
    assert "it lies on its side" in size.message


def test_a_file_that_is_no_art_is_an_error_not_a_finding(tmp_path: Path) -> None:
    (tmp_path / "face.pdf").write_bytes(b"%PDF-1.4 and no more")
    with pytest.raises(InputError, match=r"face\.pdf"):
        check_sides(context_of(tmp_path, 'face = "face.pdf"\n'))


def test_a_back_printed_over_flap_and_pocket_shows_its_steps(tmp_path: Path) -> None:
    flap = 'flap = "straight"\n'
    clear = square(0.6, 4.2)  # on the pocket, clear of the seams
    across = square(3.5, 1.9, 0.3)  # over the edge of a flap 1.995 in deep
    for content, told in ((clear, False), (across, True)):
        make_pdf(tmp_path / "back.pdf", (WIDE, HIGH), content)
        said = words(check_sides(context_of(tmp_path, f'{flap}flap_art = "back.pdf"\n')))
        assert ("runs over the flap's edge" in said) == told
        assert ("over the gum" in said) == told  # the gum lies along that edge


def test_type_over_the_flaps_edge_is_worse_than_ornament(tmp_path: Path) -> None:
    content = "BT /F1 30 Tf 150 231 Td (Samphire Hard) Tj ET"
    make_pdf(tmp_path / "back.pdf", (WIDE, HIGH), content)
    more = 'flap = "straight"\nflap_art = "back.pdf"\n'
    findings = check_sides(context_of(tmp_path, more))
    (step,) = [each for each in findings if "flap's edge" in each.message]
    assert step.severity is Severity.WARN and "Samphire Hard" in step.message


def test_an_address_out_of_place_or_too_small_is_told(tmp_path: Path) -> None:
    """USPS DMM 202.1: 8 pt; 202.2.1."""
    said = words(check_type(context_of(tmp_path, 'address = ["Samphire Hard"]\n')))
    assert said == ""
    more = 'address = { lines = ["Samphire Hard"], size = 6, at = [1, 0.5] }\n'
    said = words(check_type(context_of(tmp_path, more)))
    assert "100 % of the address lies outside" in said and "set at 6 pt" in said
    assert words(check_type(context_of(tmp_path, more, ("germany",)))) == ""


def test_a_sender_on_the_flap_is_allowed_and_told(tmp_path: Path) -> None:
    findings = check_type(context_of(tmp_path, 'return_address = ["The Tide Mill"]\n'))
    assert [each.severity for each in findings] == [Severity.NOTE] * 2
    assert (
        "no print file" in findings[0].message and "flap, which is allowed" in findings[1].message
    )
    more = 'return_address = { lines = ["The Tide Mill"], side = "face", at = [4, 3] }\n'
    assert "may take it for the address" in words(check_type(context_of(tmp_path, more)))
    more = 'return_address = { lines = ["The Tide Mill"], at = [0.1, 2] }\n'
    assert "runs over the flap's edge" in words(check_type(context_of(tmp_path, more)))


def test_the_post_judges_the_ink_an_address_is_in(tmp_path: Path) -> None:
    """USPS Publication 25, 11: no light type on dark paper; ours in white ink is readable, 4.5:1."""
    dark = 'holds = ["card"]\ncolour = "#22385a"\naddress = ["Samphire Hard"]\n'
    findings = check_post(context_of(tmp_path, dark))
    said = words(findings)
    assert "white-ink address on #22385a is lighter than its paper" in said
    assert "black address" not in said
    assert not [each for each in findings if each.check == "contrast"]
    pale = 'holds = ["card"]\ncolour = "kraft"\naddress = { lines = ["Samphire Hard"], ink = "white" }\n'
    (contrast,) = [e for e in check_post(context_of(tmp_path, pale)) if e.check == "contrast"]
    assert contrast.value is not None and contrast.value < 4.5 and "white ink" in contrast.message
