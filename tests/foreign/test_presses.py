"""Pages to the press: overprint and blending as ISO 32000-1 has them, on small pages with known
inks. Shares in percent; half a percent is the bytes' own rounding, and one where a spot is worked in.
"""

from __future__ import annotations

import hashlib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pymupdf
import pytest
from pikepdf import Array, Dictionary, Name
from PIL import Image, ImageCms

from mockup.artwork.art import art_of
from mockup.artwork.press import BY_ITSELF, press_of_file, press_words, presses_of
from mockup.colour.plates import Pressed
from mockup.colour.press import COATED, UNCOATED, Press
from mockup.errors import InputError
from tests.colour.press_pages import Page, at, drawn, field_at, inks, write

COATED_ICC = COATED.profile.read_bytes()
OVERPRINT = Dictionary(
    M0=Dictionary(OP=True, op=True, OPM=0),
    M1=Dictionary(OP=True, op=True, OPM=1),
    Multiply=Dictionary(BM=Name.Multiply),
)


def tint(*full: float) -> Dictionary:
    return Dictionary(FunctionType=2, Domain=[0, 1], C0=[0.0] * len(full), C1=list(full), N=1)


def spot(name: str, *full: float) -> Array:
    return Array([Name.Separation, Name(f"/{name}"), Name.DeviceCMYK, tint(*full)])


RESOURCES: dict[str, object] = {
    "ExtGState": OVERPRINT,
    "ColorSpace": Dictionary(Gold=spot("Gold", 0, 0.2, 1, 0)),
}

# What is painted in the second field of a page whose fields are all a full cyan, and the C, M, Y, K
# that are left there (ISO 32000-1, 8.6.7, table 48 and 11.7.4.5).
CASES = {
    "yellow knocks cyan out": ("0 0 1 0 k {f} f", (0, 0, 100, 0)),
    "yellow overprints cyan, mode 1": ("/M1 gs 0 0 1 0 k {f} f", (100, 0, 100, 0)),
    "yellow overprints cyan, mode 0": ("/M0 gs 0 0 1 0 k {f} f", (0, 0, 100, 0)),
    "white knocks out": ("0 0 0 0 k {f} f", (0, 0, 0, 0)),
    "white overprints, mode 1": ("/M1 gs 0 0 0 0 k {f} f", (100, 0, 0, 0)),
    "white overprints, mode 0": ("/M0 gs 0 0 0 0 k {f} f", (0, 0, 0, 0)),
    "a tint replaces its own ink": ("/M1 gs 0.4 0 0.3 0 k {f} f", (40, 0, 30, 0)),
    "black overprints": ("/M1 gs 0 0 0 1 k {f} f", (100, 0, 0, 100)),
    "a stroke overprints": ("/M1 gs 0 0 1 0 K 30 w 20 10 m 40 10 l S", (100, 0, 100, 0)),
    "a spot knocks out": ("/Gold cs 1 scn {f} f", (0, 20, 100, 0)),
    "a spot overprints": ("/M1 gs /Gold cs 1 scn {f} f", (100, 20, 100, 0)),
    "half a spot overprints": ("/M0 gs /Gold cs 0.5 scn {f} f", (100, 10, 50, 0)),
    "multiplied in ink": ("/Multiply gs 0 0 1 0 k {f} f", (100, 0, 100, 0)),
    "grey is black ink": ("0.25 g {f} f", (0, 0, 0, 75)),
}


def percent(pixels: np.ndarray, number: int) -> list[float]:
    return [value / 2.55 for value in at(pixels, number)]


def pressed(path: Path, press: Press = UNCOATED) -> Pressed:
    found = drawn(path, press).drawn
    assert isinstance(found, Pressed)
    return found


@pytest.mark.parametrize("intent", [None, COATED_ICC], ids=["assumed", "intent"])
@pytest.mark.parametrize("name", CASES)
def test_inks_over_inks(tmp_path: Path, name: str, intent: bytes | None) -> None:
    painted, left = CASES[name]
    content = f"1 0 0 0 k 0 0 120 120 re f q {painted.format(f=field_at(1))} Q"
    resources = RESOURCES if "Gold" in painted else {"ExtGState": OVERPRINT}  # else without spots
    path = write(tmp_path / "art.pdf", Page(content, resources, intent))
    found = pressed(path).process
    assert percent(found, 0) == pytest.approx((100, 0, 0, 0), abs=0.5)
    assert percent(found, 1) == pytest.approx(left, abs=1 if "Gold" in painted else 0.5)


@pytest.mark.parametrize("intent", [None, COATED_ICC], ids=["assumed", "intent"])
def test_the_plates_carry_the_numbers_of_the_file(tmp_path: Path, intent: bytes | None) -> None:
    """With an output intent the library would convert them for its own press: by 43 of 255."""
    content = f"0.2 0.4 0.6 0.1 k {field_at(0)} f 0.9 0.1 0 0.5 k {field_at(1)} f"
    path = write(tmp_path / "art.pdf", Page(content, {}, intent))
    process = inks(path).process
    assert percent(process, 0) == pytest.approx((20, 40, 60, 10), abs=0.5)
    assert percent(process, 1) == pytest.approx((90, 10, 0, 50), abs=0.5)


@pytest.mark.parametrize("intent", [None, COATED_ICC], ids=["assumed", "intent"])
def test_spots_have_plates_of_their_own_beside_an_intent(
    tmp_path: Path, intent: bytes | None
) -> None:
    spaces = Dictionary(Gold=spot("Gold", 0, 0.2, 1, 0), Leaf=spot("Leaf", 1, 0, 1, 0))
    content = (
        f"0.2 0.4 0.6 0.1 k {field_at(0)} f /Gold cs 0.8 scn {field_at(1)} f "
        f"/Leaf cs 0.3 scn {field_at(2)} f"
    )
    found = inks(write(tmp_path / "art.pdf", Page(content, {"ColorSpace": spaces}, intent)))
    assert percent(found.process, 0) == pytest.approx((20, 40, 60, 10), abs=0.5)
    assert percent(found.process, 1) == percent(found.process, 2) == [0, 0, 0, 0]
    plates = {each.name: [each.plate[55, x] / 2.55 for x in (5, 15, 25)] for each in found.spots}
    assert plates["Gold"] == pytest.approx([0, 80, 0], abs=0.5)
    assert plates["Leaf"] == pytest.approx([0, 0, 30], abs=0.5)


def with_streams(path: Path, content: str, resources: str, **streams: tuple[str, bytes]) -> Path:
    """Writes a page whose resources, as text, name streams by {name}."""
    write(path, Page(content))
    document = pymupdf.open(path)
    numbers: dict[str, str] = {}
    for name, (dictionary, body) in streams.items():
        xref = document.get_new_xref()
        document.update_object(xref, dictionary.format(**numbers))
        document.update_stream(xref, body, new=True)
        numbers[name] = f"{xref} 0 R"
    document.xref_set_key(document[0].xref, "Resources", resources.format(**numbers))
    made = path.with_stem(f"{path.stem}-made")
    document.save(made)
    return made


def test_inks_named_one_by_one_leave_the_others(tmp_path: Path) -> None:
    """ISO 32000-1, 8.6.7: DeviceN marks the colourants it names alone, in either mode."""
    function = "<</FunctionType 4/Domain[0 1 0 1]/Range[0 1 0 1 0 1 0 1]>>"
    path = with_streams(
        tmp_path / "art.pdf",
        f"0 1 0 0 k 0 0 120 120 re f q /Over gs /N cs 0.6 0.5 scn {field_at(1)} f Q "
        f"q /N cs 0.6 0.5 scn {field_at(2)} f Q",
        "<</ExtGState<</Over<</OP true/op true>>>>"
        "/ColorSpace<</N[/DeviceN[/Cyan/Gold]/DeviceCMYK {tint}]>>>>",
        tint=(function, b"{ 0 exch 0 }"),  # cyan, and a gold that is all yellow
    )
    found = pressed(path).process
    assert percent(found, 1) == pytest.approx((60, 100, 50, 0), abs=1)
    assert percent(found, 2) == pytest.approx((60, 0, 50, 0), abs=1)


def test_spots_in_a_form_are_stood_for_by_the_press_too(tmp_path: Path) -> None:
    path = with_streams(
        tmp_path / "art.pdf",
        "/F Do",
        "<</XObject<</F {form}>>>>",
        form=(
            "<</Type/XObject/Subtype/Form/BBox[0 0 120 120]/Resources<</ColorSpace<</G[/Separation"
            "/Gold/DeviceCMYK<</FunctionType 2/Domain[0 1]/C0[0 0 0 0]/C1[0 0.2 1 0]/N 1>>]>>>>>>",
            f"/G cs 1 scn {field_at(1)} f 1 0 0 0 k {field_at(2)} f".encode(),
        ),
    )
    found = pressed(path).process
    assert percent(found, 1) == pytest.approx((0, 20, 100, 0), abs=1)
    assert percent(found, 2) == pytest.approx((100, 0, 0, 0), abs=1)


def test_a_soft_mask_shares_the_ink_out(tmp_path: Path) -> None:
    """ISO 32000-1, 11.6.5.3: a mask of luminosity, half light."""
    path = with_streams(
        tmp_path / "art.pdf",
        f"/Masked gs 1 0.4 0 0 k {field_at(1)} f",
        "<</ExtGState<</Masked<</SMask<</S/Luminosity/G {mask}>>>>>>>>",
        mask=(
            "<</Type/XObject/Subtype/Form/BBox[0 0 120 120]/Group<</S/Transparency"
            "/CS/DeviceGray>>>>",
            b"0.5 g 0 0 120 120 re f",
        ),
    )
    assert percent(pressed(path).process, 1) == pytest.approx((50, 20, 0, 0), abs=1)


def test_ink_seen_through_is_less_ink(tmp_path: Path) -> None:
    content = f"1 0.4 0 0 k /Half gs {field_at(1)} f"
    state = Dictionary(Half=Dictionary(ca=0.5))
    found = pressed(write(tmp_path / "art.pdf", Page(content, {"ExtGState": state}))).process
    assert percent(found, 1) == pytest.approx((50, 20, 0, 0), abs=1)


def converted(ink: tuple[int, ...], source: Press, target: Press) -> list[float]:
    """Returns what LittleCMS makes of an ink of one press on another."""
    flags = ImageCms.Flags.BLACKPOINTCOMPENSATION | ImageCms.Flags.HIGHRESPRECALC
    way = ImageCms.buildTransform(
        str(source.profile), str(target.profile), "CMYK", "CMYK", 1, flags
    )
    pixel = ImageCms.applyTransform(Image.new("CMYK", (1, 1), ink), way).getpixel((0, 0))
    assert isinstance(pixel, tuple)
    return [value / 2.55 for value in pixel]


@pytest.mark.parametrize("where", ["DefaultCMYK", "ICCBased"])
def test_ink_of_another_press_is_converted_for_this_one(tmp_path: Path, where: str) -> None:
    """ISO 32000-1, 8.6.5.6: DefaultCMYK says what DeviceCMYK means; as LittleCMS converts it."""
    ink = (51, 102, 153, 26)
    numbers = " ".join(f"{value / 255:.4f}" for value in ink)
    fill = f"{numbers} k" if where == "DefaultCMYK" else f"/S cs {numbers} scn"
    name = "DefaultCMYK" if where == "DefaultCMYK" else "S"
    path = with_streams(
        tmp_path / "art.pdf",
        f"{fill} {field_at(1)} f 0 0 0 0 k {field_at(2)} f",
        f"<</ColorSpace<</{name}[/ICCBased {{profile}}]>>>>",
        profile=("<</N 4>>", COATED_ICC),
    )
    found = percent(pressed(path).process, 1)
    assert found == pytest.approx(converted(ink, COATED, UNCOATED), abs=3)
    same = percent(pressed(path, COATED).process, 1)
    assert same == pytest.approx([value / 2.55 for value in ink], abs=0.5)


def test_lab_is_separated_for_the_press_and_looks_as_it_says(tmp_path: Path) -> None:
    space = Array(
        [Name.Lab, Dictionary(WhitePoint=[0.9642, 1, 0.8249], Range=[-128, 127, -128, 127])]
    )
    content = f"/L cs 60 20 10 scn {field_at(1)} f 0 0 0 0.5 k {field_at(2)} f"
    path = write(tmp_path / "art.pdf", Page(content, {"ColorSpace": Dictionary(L=space)}))
    # sRGB of CIELAB 60, 20, 10, by colour-science; the black points are brought together.
    assert at(drawn(path, COATED).on_white, 1) == pytest.approx((180, 132, 127), abs=8)


def test_rgb_alone_keeps_its_own_pixels(tmp_path: Path) -> None:
    content = f"0 0 1 rg {field_at(0)} f 1 0.5 0 rg {field_at(1)} f 0.5 g {field_at(2)} f"
    path = write(tmp_path / "art.pdf", Page(content))
    found = drawn(path).drawn
    assert isinstance(found, np.ndarray)
    pixmap = pymupdf.open(path)[0].get_pixmap(matrix=pymupdf.Matrix(0.5, 0.5))
    theirs = np.frombuffer(pixmap.samples, np.uint8).reshape(found.shape)
    assert np.array_equal(found, theirs)
    assert at(found, 0) == [0, 0, 255]


def test_a_template_left_in_rgb_art_does_not_send_it_to_the_press(tmp_path: Path) -> None:
    spaces = Dictionary(Die=spot("Dieline", 0, 1, 0, 0))
    content = f"0 0 1 rg {field_at(0)} f /Die CS 1 SCN {field_at(1)} S"
    path = write(tmp_path / "spot.pdf", Page(content, {"ColorSpace": spaces}))
    assert isinstance(drawn(path).drawn, np.ndarray)
    line = write(tmp_path / "line.pdf", Page(f"0 0 1 rg {field_at(0)} f 0 1 0 0 K 1 1 9 9 re S"))
    assert isinstance(drawn(line).drawn, Pressed)
    art = art_of(line)
    shown, left_out = presses_of([art, replace(art, left_out=frozenset({1}))])
    assert shown is not None
    assert left_out is None


def test_rgb_on_a_page_of_ink_is_separated_for_its_press(tmp_path: Path) -> None:
    """What a printer does with it: blue has no cyan's neighbour in print, and black is no K."""
    content = f"0 0 1 rg {field_at(0)} f 0 0 0 1 k {field_at(1)} f"
    path = write(tmp_path / "art.pdf", Page(content, {}, COATED_ICC))
    cyan, magenta, yellow, _ = percent(pressed(path).process, 0)
    assert cyan > 80 and magenta > 75 and yellow < 5
    red, _, blue = at(drawn(path).on_white, 0)
    assert red > 30 and blue < 180  # measured of the screen's blue on coated paper: 53, 62, 145


def rgb_profile() -> bytes:
    return ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()


@pytest.mark.parametrize(
    ("intent", "count", "press"),
    [
        (COATED_ICC, 4, "FOGRA39L Coated, the file's own output intent"),
        (rgb_profile(), 3, "FOGRA29L uncoated, assumed for uncoated paper"),
        (COATED_ICC[:5000], 4, "FOGRA29L uncoated, assumed for uncoated paper"),
        (b"no profile", 4, "FOGRA29L uncoated, assumed for uncoated paper"),
        (None, 4, "FOGRA29L uncoated, assumed for uncoated paper"),
    ],
    ids=["cmyk", "rgb", "cut short", "noise", "none"],
)
def test_the_press_is_the_files_own_where_it_names_one_that_can_be_used(
    tmp_path: Path, intent: bytes | None, count: int, press: str
) -> None:
    content = f"0.2 0.4 0.6 0.1 k {field_at(0)} f"
    path = write(tmp_path / "art.pdf", Page(content, {}, intent, count))
    before = hashlib.sha256(path.read_bytes()).digest()
    (shown,) = presses_of([art_of(path)])
    assert press_words(shown, (245, 244, 240)) == press
    assert percent(pressed(path).process, 0) == pytest.approx((20, 40, 60, 10), abs=0.5)
    assert hashlib.sha256(path.read_bytes()).digest() == before


def test_a_condition_may_be_named_without_its_profile(tmp_path: Path) -> None:
    path = write(tmp_path / "art.pdf", Page(f"1 0 0 0 k {field_at(0)} f"))
    document = pymupdf.open(path)
    intent = "[<</S/GTS_PDFX/OutputConditionIdentifier(FOGRA39)/RegistryName(x)>>]"
    document.xref_set_key(document.pdf_catalog(), "OutputIntents", intent)
    document.save(tmp_path / "named.pdf")
    (shown,) = presses_of([art_of(tmp_path / "named.pdf")])
    assert press_words(shown, (245, 244, 240)).startswith("FOGRA39L Coated, the file's own output")


def test_how_sure_a_colour_is_is_told(tmp_path: Path) -> None:
    path = write(tmp_path / "art.pdf", Page(f"1 0 0 0 k {field_at(0)} f"))
    plain = write(tmp_path / "plain.pdf", Page(f"1 0 0 rg {field_at(0)} f"))
    shown, none = presses_of([art_of(path), art_of(plain)])
    assert "expect differences" not in press_words(shown, (245, 244, 240))
    assert "expect differences of 3 to 6" in press_words(shown, (174, 144, 111))
    assert press_words(none, (245, 244, 240)) == BY_ITSELF
    assert "expect differences of 3 to 6" in press_words(none, (174, 144, 111))


def test_a_users_profile_is_taken_or_told(tmp_path: Path) -> None:
    path = write(tmp_path / "art.pdf", Page(f"0 1 0 0 k {field_at(0)} f"))
    theirs = tmp_path / "theirs.icc"
    theirs.write_bytes(COATED_ICC)
    press = press_of_file(theirs, "the suite's press")
    (shown,) = presses_of([art_of(path, press=press)])
    assert press_words(shown, (245, 244, 240)) == "FOGRA39L Coated, the suite's press"
    coated, own = drawn(path, COATED).on_white, drawn(path, press).on_white
    assert np.array_equal(coated, own)
    assert not np.array_equal(coated, drawn(path).on_white)
    theirs.write_bytes(rgb_profile())
    with pytest.raises(InputError, match="theirs.icc: is no profile of a CMYK press"):
        press_of_file(theirs, "")


def test_a_page_is_drawn_the_same_with_its_press_in_the_file_or_assumed(tmp_path: Path) -> None:
    noise = np.random.default_rng(3).uniform(0, 1, (30, 60, 4))
    rows = "".join(
        f"{a:.4f} {b:.4f} {c:.4f} {d:.4f} k {2 * x} {2 * y} 2 2 re f\n"
        for y, row in enumerate(noise.tolist())
        for x, (a, b, c, d) in enumerate(row)
    )
    plain = write(tmp_path / "plain.pdf", Page(rows))
    named = write(tmp_path / "named.pdf", Page(rows, {}, COATED_ICC))
    assert np.array_equal(drawn(plain, COATED).on_white, drawn(named).on_white)
