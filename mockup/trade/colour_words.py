"""Words for the colours of lines, in the ten languages of `vocabulary`; common practice, no source.

Names that colours are told by, and the words they are asked for and named in legends by.
"""

from __future__ import annotations

import colorsys

from mockup.trade.vocabulary import plain_words

Rgb = tuple[float, float, float]
"""sRGB shares, 0 to 1."""

# Degrees on the wheel of hues (HSV) up to which a name is used; judgement.
_HUES = (
    (18.0, "red"), (45.0, "orange"), (70.0, "yellow"), (165.0, "green"), (200.0, "cyan"),
    (258.0, "blue"), (288.0, "purple"), (338.0, "magenta"), (360.1, "red"),
)  # fmt: skip
_CENTRES = {
    "red": 0.0, "orange": 30.0, "yellow": 57.0, "green": 125.0, "cyan": 185.0, "blue": 230.0,
    "purple": 275.0, "magenta": 315.0,
}  # fmt: skip
_WIDE_DEG = 32.0  # judgement: a line somebody calls blue may be a little green or purple
_GREY, _BLACK, _WHITE = 0.15, 0.25, 0.93  # judgement: what an eye calls so on paper

_WORDS = {
    "red": "red rot rote roter rouge rosso rossa rojo roja vermelho vermelha rood rode czerwony "
    "czerwona rod roda cerveny cervena",
    "orange": "orange arancione arancio naranja laranja oranje pomaranczowy oranzovy",
    "yellow": "yellow gelb gelbe jaune giallo gialla amarillo amarilla amarelo amarela geel gele "
    "zolty zolta gul gula zluty zluta",
    "green": "green grun grune grunes vert verte verde groen groene zielony zielona gron grona "
    "zeleny zelena lime",
    "cyan": "cyan turquoise aqua cian ciano cyjan turkis tyrkysova",
    "blue": "blue blau blaue bleu bleue blu azzurro azul blauw blauwe niebieski niebieska bla blaa "
    "modry modra navy",
    "purple": "purple violet lila violett violette viola morado morada roxo paars paarse fioletowy "
    "fioletowa fialovy fialova",
    "magenta": "magenta pink rosa fuchsia rose fucsia roze rozowy rozowa ruzova purpurova",
    "black": "black schwarz schwarze noir noire nero nera negro negra preto preta zwart zwarte "
    "czarny czarna svart svarta sort cerny cerna",
    "white": "white weiss weisse blanc blanche bianco bianca blanco blanca branco branca wit witte "
    "bialy biala vit vita hvid bily bila",
    "grey": "grey gray grau graue gris grigio cinza grijs szary gra graa sedy seda",
}
_NAMES = {word: name for name, words in _WORDS.items() for word in words.split()}


def colour_name(rgb: Rgb) -> str:
    """Returns the word an eye has for a colour: `magenta`."""
    hue, saturation, value = colorsys.rgb_to_hsv(*rgb)
    if value < _BLACK:
        return "black"
    if saturation < _GREY:
        return "white" if value > _WHITE else "grey"
    return next(name for limit, name in _HUES if hue * 360 < limit)


def colours_said(text: str) -> set[str]:
    """Returns the colours a text names, by their English names."""
    return {_NAMES[word] for word in plain_words(text) if word in _NAMES}


def is_called(rgb: Rgb, name: str) -> bool:
    """Returns whether a colour may be called by an English name; neighbours overlap."""
    own = colour_name(rgb)
    if own == name:
        return True
    if own not in _CENTRES or name not in _CENTRES:
        return False
    apart = abs(colorsys.rgb_to_hsv(*rgb)[0] * 360 - _CENTRES[name]) % 360
    return min(apart, 360 - apart) <= _WIDE_DEG
