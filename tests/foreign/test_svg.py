"""SVG art: drawn as vectors, and refused where it reaches out or never ends."""

import base64
import gzip
import io
from pathlib import Path

import pytest
from PIL import Image

from mockup.artwork.art import art_of
from mockup.artwork.page import place_card, read_page
from mockup.artwork.raster import RasterJob, rasterise
from mockup.artwork.undrawn import undrawn_features
from mockup.errors import InputError, LimitError, SystemLibraryError
from mockup.foreign.svg import svg_to_pdf
from mockup.geometry.affine import IDENTITY
from mockup.pixels import View

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '


def svg(path: Path, body: str, size: str = 'width="5.25in" height="7.25in"') -> Path:
    path.write_text(f"{HEAD}{size} viewBox='0 0 100 138'>{body}</svg>")
    return path


def drawn(path: Path) -> bytes:
    return svg_to_pdf(str(path), path.read_bytes())


def test_an_svg_is_a_page_of_its_size(tmp_path: Path) -> None:
    page = read_page(art_of(svg(tmp_path / "art.svg", '<rect width="50" height="50"/>')))
    assert place_card(page, 5, 7, 0.125).bleed_in == pytest.approx(0.125)


@pytest.mark.parametrize(
    "body",
    [
        '<image href="http://example.org/a.png"/>',
        '<image xlink:href="file:///etc/hostname"/>',
        '<use href="other.svg#a"/>',
        "<style>@import url(a.css);</style>",
        '<rect style="fill: url(other.svg#p)"/>',
    ],
)
def test_an_svg_that_reaches_outside_itself(tmp_path: Path, body: str) -> None:
    with pytest.raises(InputError, match="outside itself|imports a style sheet"):
        drawn(svg(tmp_path / "art.svg", body))


_saved = io.BytesIO()
Image.new("L", (3, 3), 90).save(_saved, "PNG")
PIXEL = base64.b64encode(_saved.getvalue()).decode()
DRAWING = base64.b64encode(b'<svg xmlns="http://www.w3.org/2000/svg"/>').decode()


@pytest.mark.parametrize("label", ["image/png", "image/jpeg", "image/svg+xml", "text/plain", ""])
@pytest.mark.parametrize(
    ("body", "said"),
    [
        (f";base64,{DRAWING}", "an SVG is placed as an image"),
        (",%3Csvg xmlns='http://www.w3.org/2000/svg'/%3E", "an SVG is placed as an image"),
        (f";base64,{base64.b64encode(gzip.compress(b'<svg/>')).decode()}", "an SVG is placed"),
        (f";base64,{base64.b64encode(b'%!PS-Adobe-3.0 EPSF-3.0').decode()}", "is no PNG"),
        (f";base64,{base64.b64encode(bytes(64)).decode()}", "is no PNG"),
        (f";base64 ,{PIXEL}", "is no PNG"),
        (";base64,AAAAA", "cannot be decoded"),
        (";base64,", "cannot be decoded"),
        (f";base64,{PIXEL}", None),
    ],
    ids=["svg", "svg in words", "svgz", "eps", "noise", "odd label", "cut", "empty", "png"],
)
def test_an_image_is_what_its_first_bytes_say(
    tmp_path: Path, label: str, body: str, said: str | None
) -> None:
    path = svg(tmp_path / "art.svg", f'<image href="data:{label}{body}" width="9" height="9"/>')
    if said is None:
        assert drawn(path).startswith(b"%PDF")
        return
    with pytest.raises(InputError, match=said):
        drawn(path)


def _image(kind: str, size: int = 90) -> bytes:
    saved = io.BytesIO()
    noise = Image.effect_noise((size, size), 60)
    noise.save(saved, kind)
    return saved.getvalue()


@pytest.mark.parametrize(
    "content",
    [
        _image("PNG")[:600],
        _image("PNG").replace(
            b"IDAT", b"IDAX"
        ),  # an unknown chunk of the critical kind (PNG 3, 5.4)
        _image("JPEG")[:600],
        _image("WEBP")[:600],
        b"RIFF\x24\0\0\0WEBPVP8 " + bytes(20),
        b"BM" + bytes(90),
    ],
    ids=["png cut", "png chunk", "jpeg cut", "webp cut", "webp empty", "bmp empty"],
)
def test_a_broken_image_is_told_as_one(tmp_path: Path, content: bytes) -> None:
    """What draws it told of too little memory, or of an object at an address."""
    body = base64.b64encode(content).decode()
    image = f'<image id="moon" href="data:image/png;base64,{body}" width="9" height="9"/>'
    with pytest.raises(InputError, match='image id="moon">: the image in it cannot be decoded'):
        drawn(svg(tmp_path / "art.svg", image))


@pytest.mark.parametrize(
    ("body", "said"),
    [
        ('<text font-size="1e9">abc</text>', "type in it is of a size"),
        ('<g id="a"><use href="#a"/></g><g id="a"/><use href="#a"/>', "refer to each other"),
        ('<path d="M1 1a5 5 0 01.1.1.1.1"/>', r"cannot be drawn; save the art as PDF"),
    ],
)
def test_what_cannot_be_drawn_is_told_without_a_librarys_words(
    tmp_path: Path, body: str, said: str
) -> None:
    with pytest.raises(InputError, match=said) as caught:
        drawn(svg(tmp_path / "art.svg", body))
    for word in ("cairo", "CAIRO", "recursion", "unpack", "0x"):
        assert word not in str(caught.value)


def test_an_image_with_two_references_is_drawn_by_the_one_that_was_looked_at(
    tmp_path: Path,
) -> None:
    sound, other = f"data:image/png;base64,{PIXEL}", f"data:image/png;base64,{DRAWING}"
    drawn(svg(tmp_path / "a.svg", f'<image href="{sound}" xlink:href="{other}" width="9"/>'))
    with pytest.raises(InputError, match="an SVG is placed"):
        drawn(svg(tmp_path / "b.svg", f'<image href="{other}" xlink:href="{sound}" width="9"/>'))


def test_an_svg_with_entities(tmp_path: Path) -> None:
    path = tmp_path / "art.svg"
    path.write_text(f'<!DOCTYPE svg [<!ENTITY a "aaaa">]>{HEAD} width="9" height="9">&a;</svg>')
    with pytest.raises(InputError, match="declares entities"):
        drawn(path)


def test_an_svg_that_refers_to_itself(tmp_path: Path) -> None:
    body = '<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'
    with pytest.raises(LimitError, match="without end"):
        drawn(svg(tmp_path / "art.svg", body))


def test_an_svg_that_unfolds_exponentially(tmp_path: Path) -> None:
    body = '<g id="n0"><rect width="1" height="1"/></g>'
    for k in range(1, 14):
        body += f'<g id="n{k}">' + f'<use href="#n{k - 1}"/>' * 4 + "</g>"
    with pytest.raises(LimitError, match="unfolds to over"):
        drawn(svg(tmp_path / "art.svg", body))


def test_an_svg_that_is_not_well_formed(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="not a well-formed SVG"):
        drawn(svg(tmp_path / "art.svg", "<g>"))


def test_a_missing_cairo_is_named_with_how_to_install_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import builtins

    real = builtins.__import__

    def without_cairo(name: str, *args: object, **kwargs: object) -> object:
        if name == "cairosvg":
            raise OSError('no library called "cairo-2" was found')
        return real(name, *args, **kwargs)  # type: ignore[arg-type]

    monkeypatch.setattr(builtins, "__import__", without_cairo)
    with pytest.raises(SystemLibraryError, match=r"apt install libcairo2.*macOS.*Windows"):
        drawn(svg(tmp_path / "art.svg", '<rect width="5" height="5"/>'))


def test_a_picture_in_an_svg_is_drawn(tmp_path: Path) -> None:
    """A data URL, as programs embed pictures; a worker opens no connection for it."""
    picture = io.BytesIO()
    Image.new("RGB", (8, 8), (200, 30, 40)).save(picture, "PNG")
    data = base64.b64encode(picture.getvalue()).decode()
    body = f'<image width="100" height="138" xlink:href="data:image/png;base64,{data}"/>'
    page = read_page(art_of(svg(tmp_path / "art.svg", body)))
    job = RasterJob(page, place_card(page, 5, 7, 0.125), IDENTITY, View(0, 0, 50, 70, 10))
    middle = rasterise([job])[0].on_white[35, 25]
    assert tuple(middle) == pytest.approx((200, 30, 40), abs=2)


@pytest.mark.parametrize(("filtered", "told"), [(True, ("a filter (blur, shadow)",)), (False, ())])
def test_what_an_svg_asks_for_in_vain_is_told(
    tmp_path: Path, filtered: bool, told: tuple[str, ...]
) -> None:
    asked = 'filter="url(#b)"' if filtered else ""
    body = f'<filter id="b"/><rect width="50" height="50" {asked}/>'
    assert undrawn_features(art_of(svg(tmp_path / "art.svg", body))) == told
