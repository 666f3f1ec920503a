"""What colours are called."""

import pytest

from mockup.colour.naming import colour_words
from mockup.colour.printed_lab import lab_of_rgb
from mockup.colour.srgb import parse_hex


@pytest.mark.parametrize(
    ("colour", "words"),
    [
        ("#22385a", "dark blue"),
        ("#a3ad94", "grey-green"),
        ("#a8472a", "rust"),
        ("#f1e8d6", "cream"),
        ("#ffffff", "white"),
        ("#000000", "black"),
        ("#808080", "grey"),
        ("#ae906f", "sand"),
        ("#5f6a4a", "olive"),
        ("#d02020", "red"),
        ("#5b3a20", "dark brown"),
    ],
)
def test_a_colour_is_called_what_a_printer_would_call_it(colour, words):
    assert colour_words(tuple(lab_of_rgb(parse_hex(colour)))) == words


def test_every_colour_there_is_has_a_name():
    for red in range(0, 256, 15):
        for green in range(0, 256, 15):
            for blue in range(0, 256, 15):
                words = colour_words(tuple(lab_of_rgb((red, green, blue))))
                assert words.strip() == words != ""
