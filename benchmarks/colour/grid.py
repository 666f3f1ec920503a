"""A grid of 2,401 CMYK patches as a real PDF, through `mockup piece`, against LittleCMS.

The reference takes its own way: LittleCMS reads the same profile, absolute, into a wide RGB space;
the formula of ink on paper and the way to sRGB are written out here once more, with the matrices of
colour-science. Told in CIEDE2000: mean, 95th percentile, maximum.
"""

from __future__ import annotations

import io
import struct
import subprocess
import sys
import tempfile
import warnings
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pikepdf
from numpy.typing import NDArray
from PIL import Image, ImageCms
from skimage.color import deltaE_ciede2000

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour

from mockup.colour.icc_reading import read_condition
from mockup.colour.lab import rgb_of_xyz
from mockup.colour.press import COATED, UNCOATED, Press
from mockup.colour.srgb import Rgb, parse_hex, to_hex
from mockup.render.piece import piece_picture
from mockup.suite.single import single_piece
from mockup.trade.papers import STOCKS

Numbers = NDArray[np.float64]

STEPS = 7
FIELD_PT, ACROSS = 7.2, 49
PPI = 100
FLOOR = 0.003
STOCK = "smooth-120-white"
D50 = np.array([0.9642, 1.0, 0.8249])
_SRGB = colour.RGB_COLOURSPACES["sRGB"]
_WIDE = colour.RGB_COLOURSPACES["ITU-R BT.2020"]
_FLAGS = ImageCms.Flags.NOWHITEONWHITEFIXUP | ImageCms.Flags.HIGHRESPRECALC


@dataclass(frozen=True)
class Told:
    """One comparison: what was compared, and CIEDE2000 of all patches."""

    about: str
    off: Numbers

    def __str__(self) -> str:
        mean, high, most = self.off.mean(), np.quantile(self.off, 0.95), self.off.max()
        return f"{self.about}: mean {mean:.2f}, 95 % {high:.2f}, max {most:.2f} ({len(self.off)})"


def patches(steps: int = STEPS) -> NDArray[np.uint8]:
    """Returns every mix of so many steps an ink, (n, 4), 255 a full ink."""
    at = np.rint(np.linspace(0, 255, steps)).astype(np.uint8)
    return np.stack(np.meshgrid(at, at, at, at, indexing="ij"), axis=-1).reshape(-1, 4)


def write_grid(path: Path, inks: NDArray[np.uint8], intent: bytes | None) -> None:
    """Writes a page of the patches, row by row from the top, with an output intent or without."""
    pdf = pikepdf.new()
    side = FIELD_PT * ACROSS
    page = pdf.add_blank_page(page_size=(side, side))
    page.TrimBox = pikepdf.Array([0, 0, side, side])
    rows = [
        f"{' '.join(f'{share / 255:.5f}' for share in ink)} k {k % ACROSS * FIELD_PT:.2f} "
        f"{side - (k // ACROSS + 1) * FIELD_PT:.2f} {FIELD_PT} {FIELD_PT} re f"
        for k, ink in enumerate(inks)
    ]
    page.Contents = pdf.make_stream("\n".join(rows).encode())
    if intent is not None:
        pdf.Root.OutputIntents = pikepdf.Array(
            [
                pikepdf.Dictionary(
                    Type=pikepdf.Name.OutputIntent,
                    S=pikepdf.Name.GTS_PDFX,
                    OutputConditionIdentifier="Custom",
                    DestOutputProfile=pdf.make_stream(intent, N=4),
                )
            ]
        )
    pdf.save(path)


def seen(picture: NDArray[np.uint8], count: int) -> Numbers:
    """Returns the middle pixel of every patch, (n, 3), of a picture with a margin of its own."""
    margin = (picture.shape[1] - round(FIELD_PT * ACROSS / 72 * PPI)) / 2
    step = FIELD_PT / 72 * PPI
    k = np.arange(count)
    column, row = (margin + (part + 0.5) * step for part in (k % ACROSS, k // ACROSS))
    return picture[row.astype(int), column.astype(int), :3].astype(np.float64)


def through_command(folder: Path, page: Path, press: Press | None) -> NDArray[np.uint8]:
    """Returns what `mockup piece` draws of a page on the usual paper."""
    out = folder / "piece.png"
    asked = ["piece", str(page), "-o", str(out), "--ppi", str(PPI), "--stock", STOCK]
    asked += ["--press", str(press.profile)] if press else []
    program = "from mockup.cli.app import main; main()"
    subprocess.run([sys.executable, "-c", program, *asked], check=True, capture_output=True)
    return np.asarray(Image.open(out).convert("RGBA"))


def by_littlecms(inks: NDArray[np.uint8], press: Press, stock: Rgb | None) -> Numbers:
    """Returns the reference, (n, 3) sRGB 0 to 255, on a stock, or on the press's own paper."""
    wide = _to_wide(inks, press)
    if stock is not None:
        own = _to_wide(np.zeros((1, 4), np.uint8), press)
        light = colour.cctf_decoding(np.array(stock) / 255, function="sRGB")
        other = light @ _between(_SRGB, _WIDE).T
        above = np.maximum(wide, FLOOR) - FLOOR
        wide = FLOOR + above * (other - FLOOR) / (own - FLOOR)
    screen = np.clip(wide @ _between(_WIDE, _SRGB).T, 0, 1)
    return np.rint(255 * colour.cctf_encoding(screen, function="sRGB"))


def difference(first: Numbers, second: Numbers) -> Numbers:
    """Returns CIEDE2000 between sRGB colours 0 to 255."""
    lab = [_lab(each) for each in (first, second)]
    return np.asarray(deltaE_ciede2000(*lab))


def _lab(rgb: Numbers) -> Numbers:
    from skimage.color import rgb2lab

    return np.asarray(rgb2lab((rgb / 255)[None], illuminant="D50"))[0]


def _between(source: object, target: object) -> Numbers:
    return np.asarray(colour.matrix_RGB_to_RGB(source, target, "Bradford"))


def _to_wide(inks: NDArray[np.uint8], press: Press) -> Numbers:
    """Returns linear Rec. 2020 as LittleCMS reads the press's profile, absolute.

    Its bytes are too coarse for what is compared: dark channels are read again, magnified.
    """
    picture = Image.frombytes("CMYK", (len(inks), 1), inks.tobytes())
    found = np.zeros((len(inks), 3))
    for gain in (1, 2, 4, 8):
        wide = ImageCms.ImageCmsProfile(io.BytesIO(_wide_profile(gain)))
        way = ImageCms.buildTransform(
            str(press.profile), wide, "CMYK", "RGB", ImageCms.Intent.ABSOLUTE_COLORIMETRIC, _FLAGS
        )
        encoded = np.asarray(ImageCms.applyTransform(picture, way)).reshape(-1, 3)
        light = (encoded / 255.0) ** 2.2 / gain
        found = np.where((encoded < 250) | (gain == 1), light, found)
    return found


def _wide_profile(gain: int) -> bytes:
    """Returns a display profile of Rec. 2020's primaries under D50, gamma 2.2, light magnified."""
    to_xyz = np.asarray(_WIDE.matrix_RGB_to_XYZ)
    white = to_xyz.sum(axis=1)
    adapted = colour.adaptation.matrix_chromatic_adaptation_VonKries(white, D50, "Bradford")
    adapt = np.asarray(adapted)
    columns = (adapt @ to_xyz).T / gain

    def xyz(values: Numbers) -> bytes:
        return b"XYZ " + bytes(4) + struct.pack(">3i", *(round(float(v) * 65536) for v in values))

    curve = b"curv" + bytes(4) + struct.pack(">IH", 1, round(2.2 * 256)) + bytes(2)
    name = b"desc" + bytes(4) + struct.pack(">I", 5) + b"wide\0" + bytes(78)
    tags = [(b"desc", name), (b"cprt", b"text" + bytes(4) + b"none\0"), (b"wtpt", xyz(D50))]
    names = (b"rXYZ", b"gXYZ", b"bXYZ")
    tags += [(key, xyz(each)) for key, each in zip(names, columns, strict=True)]
    tags += [(key, curve) for key in (b"rTRC", b"gTRC", b"bTRC")]
    start, rows, body = 132 + 12 * len(tags), b"", b""
    for key, content in tags:
        rows += struct.pack(">4sII", key, start + len(body), len(content))
        body += content + bytes(-len(content) % 4)
    kinds = (b"mntr", b"RGB ", b"XYZ ", b"acsp")
    head = struct.pack(">I4xI4s4s4s12x4s", start + len(body), 0x02400000, *kinds)
    head = head.ljust(68, b"\0") + struct.pack(">3i", *(round(v * 65536) for v in D50))
    return head.ljust(128, b"\0") + struct.pack(">I", len(tags)) + rows + body


def compare(folder: Path, steps: int = STEPS) -> list[Told]:
    """Returns every comparison: with and without an intent, and on the press's own paper."""
    inks = patches(steps)
    stock = parse_hex(STOCKS[STOCK].colour_hex)
    told: list[Told] = []
    plain, intended = folder / "plain.pdf", folder / "intended.pdf"
    write_grid(plain, inks, None)
    write_grid(intended, inks, COATED.profile.read_bytes())
    for about, page, press, asked in (
        ("no output intent, assumed uncoated", plain, UNCOATED, None),
        ("its own output intent, coated", intended, COATED, None),
        ("--press coated", plain, COATED, COATED),
    ):
        ours = seen(through_command(folder, page, asked), len(inks))
        told.append(Told(about, difference(ours, by_littlecms(inks, press, stock))))
    for about, page, press in (("uncoated", plain, UNCOATED), ("coated", intended, COATED)):
        ours = seen(_on_own_paper(page, press), len(inks))
        told.append(
            Told(f"{about}, on its own paper", difference(ours, by_littlecms(inks, press, None)))
        )
    return told


def _on_own_paper(page: Path, press: Press) -> NDArray[np.uint8]:
    piece = single_piece(page, 1, None, "rectangle", STOCK)
    paper = rgb_of_xyz(read_condition(press.profile.read_bytes()).paper)
    stock = replace(piece.stock, colour_hex=to_hex(paper))
    return piece_picture(replace(piece, stock=stock), PPI, None)


def main() -> None:
    """Prints every comparison."""
    with tempfile.TemporaryDirectory() as folder:
        for each in compare(Path(folder)):
            print(each)


if __name__ == "__main__":
    main()
