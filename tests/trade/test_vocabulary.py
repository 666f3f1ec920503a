"""Names of layers and inks as templates and print files carry them, and what they mean.

Written down from common practice in the languages named; no published source. Processing steps by
ISO 19593-1:2018, from memory.
"""

from __future__ import annotations

import pytest

from mockup.trade.vocabulary import STEPS, is_template, meaning, name_meaning

NAMES: dict[str, str] = {
    "cut": """Cut|CUT|cut line|Cutline|CutContour|Cut Contour|CUT_LINE|cut-line|Cut path|Die|DIE|Die
        line|Dieline|DIELINE|dielines|Die Cut|die-cut|DieCut|Thru-cut|Through cut|Cutter|Knife|DIE-5x7
        |Die Line A7|cut outer|Cut (front)|Dieline v2 final|Tide Mill dieline|Stanze|Stanzform
        |Stanzkontur|Stanzlinie|STANZUNG|Stanzen|Schneidelinie|Schnittkontur|Découpe|Ligne de découpe
        |Trait de coupe|ligne de coupe|Tracé de découpe|FUSTELLA|Fustella esterna|Linea di taglio
        |Taglio|Troquel|Línea de corte|Troquelado|Faca de corte|Linha de corte|Stanslijn|Stans
        |Snijlijn|Wykrojnik|Linia cięcia|Stanslinje|Skærelinje|Skärlinje|Výsek""",
    "kiss cut": "Kiss Cut|KissCut|kiss-cut|Half cut|Anstanzung|Mi-chair|Mezzo taglio|Medio corte",
    "trim": """Trim|TRIM|Trim line|TrimBox|trim size|Endformat|Format fini|Formato final|Rifilo
        |Beschnittlinie|Čistý formát""",
    "crease": """Crease|Creasing|Fold|Fold line|FoldLine|Score|Score line|mountain fold|Rillung|Rill
        |Falz|Falzlinie|Rillung/Nutung|Pli|Ligne de pli|Rainage|Cordonatura|Piega|Hendido|Plegado
        |Vinco|Vouwlijn|Ril|Bigowanie|Bigning|Falslinje|Ohyb|Cut-Crease|Ryhování""",
    "perforation": """Perf|Perforation|perf line|PERFORATED|Perforazione|Perforación|Picote
        |Perforatie|Perforacja|Perforering""",
    "hole": """Hole|Holes|Drill|Drill holes|Drilling|Punch|Punch hole|Lochung|Bohrung|Bohrungen|Trou
        |Perçage|Foro|Fori|Taladro|Agujeros|Furo|Boorgat|Otwór|Otwory|Hål|Huller|Die cut holes""",
    "bleed": """Bleed|BLEED|Bleed line|Bleed 1/8in|Bleed 3 mm|Bleed and trim|bleed of the die
        |Anschnitt|Beschnitt|Fond perdu|Fonds perdus|Abbondanza|Sangrado|Sangría|Afloop
        |Spady|Utfall""",
    "safe": """Safe|Safety|Safe zone|SafeArea|safe margin|Live area|Safety line|Type safe|Quiet zone
        |Sicherheitsabstand 3 mm|Sicherheitszone|Zone de sécurité|Marge de sécurité|Zona segura
        |Margine di sicurezza|Margem de segurança|Veiligheidsmarge|Strefa bezpieczna
        |Säkerhetsmarginal|Bezpečná zóna""",
    "guide": """Guides|Guide|Template|DO NOT PRINT|do-not-print|Don't print|Non-printing|NoPrint|Keyline
        |Hilfslinien|Nicht drucken|Gabarit|Ne pas imprimer|Non stampare|No imprimir|Não imprimir
        |Niet drukken|Nie drukować""",
    "dimensions": "Dimensions|Dims|Bemaßung|Cotes|Cotas|Misure|Maatvoering|Wymiary|Kótování",
    "registration": """Registration|Registration marks|Reg marks|Crop marks|CropMarks|Trim marks
        |Printer's marks|Schneidemarken|Passermarken|Traits de coupe|Crocini|Snijtekens""",
    "legend": "Legend|Legende|Légende|Leyenda|Die legend|Title block",
    "glue": "Glue|Glue flap|Klebelasche|Colle|Lijmvlak",
    "foil": "Foil|Gold foil|Hot foil|Foil die|Heißfolie|Dorure à chaud|Stampa a caldo|Hotstamping",
    "letterpress": "Letterpress|Buchdruck|Boktryck",
    "deboss": "Deboss|Blind deboss|Tiefprägung|Débossage|Golpe en seco",
    "emboss": "Emboss|Blind emboss|Blindprägung|Gaufrage|Goffratura|Tłoczenie",
    "varnish": "Varnish|Spot UV|SpotUV|UV-Lack|Vernis UV|Lakier|Barniz",
    "white": "White|White ink|Deckweiß|Blanc|Bianco|Wit|Vit",
    "braille": "Braille|Brailleschrift",
    "other": "No cut|Not cut|do not cut|Artwork|ohne Stanze",
}  # fmt: skip
TABLE = [
    (" ".join(name.split()), what) for what, names in NAMES.items() for name in names.split("|")
]

NOTHING = """Cut paper flowers|Safety Orange|Diecast grey|Cutty Sark|Trimaran|Folder|Perfume|Paper cut
    |Cutlery|Cutwork lace|Die Blumen|Diet notes|Scoreboard|Music score|Punch bowl|Foal|Loch Sween
    |Drillfield|Foldaway chair|Trimmings|Bleeding heart|Bleeding hearts|Safeguard|Guiding star
    |Guidebook|Template of love|Whole|Wholemeal|Holly|Wheat field|Salt marsh|Invitation|Front|Text
    |Type|Background|Layer 1|Calque 1|Ebene 3|PANTONE 185 C|PMS 2995 U|Black|Cyan|Magenta
    |Warm Red|Reply card|Names|Live|Live type|Fond|Mall|Coupe de champagne|Quote|Monogram
    |White background|Varnished oak|Brailletown|Registration desk|Legendary|Glue pot drawing
    |Kisses|Die Hochzeit von Lena|Cuttlefish|Safe harbour|Fold of sheep|Hole in the wall"""


def test_the_table_is_as_large_as_it_says():
    assert len(TABLE) >= 120
    assert len({name for name, _ in TABLE}) == len(TABLE)


@pytest.mark.parametrize(("name", "what"), TABLE, ids=[name for name, _ in TABLE])
def test_what_a_name_means(name, what):
    assert name_meaning(name) == what


@pytest.mark.parametrize("name", [" ".join(each.split()) for each in NOTHING.split("|")])
def test_what_means_nothing(name):
    """A word of the trade in a name of something else is no evidence."""
    assert name_meaning(name) is None
    assert not is_template(name)


@pytest.mark.parametrize(
    "name", ["Gold foil", "White ink", "Spot UV", "Emboss", "Artwork", "Legend"]
)
def test_what_is_printed_is_no_template_s(name):
    """Finishes belong to the art; and a map has a legend."""
    assert not is_template(name)


def test_the_innermost_name_that_says_anything_wins():
    assert meaning(["Die", "Bleed"]) == ("bleed", "Bleed")
    assert meaning(["Fustella", "Layer 1"]) == ("cut", "Fustella")
    assert meaning(["Layer 1", "Reeds"]) is None


def test_every_spelling_of_a_name_means_the_same():
    for name in ("CutContour", "CUT CONTOUR", "cut_contour", "Cut-Contour", "  cut   contour "):
        assert name_meaning(name) == "cut"


def test_names_written_with_parts_of_letters_mean_the_same():
    """Unicode writes é as one sign or as two (NFC, NFD)."""
    assert name_meaning("De\u0301coupe") == name_meaning("D\u00e9coupe") == "cut"


def test_the_steps_of_the_standard_have_meanings():
    assert STEPS["Structural/Cutting"] == "cut"
    assert STEPS["Structural/Drilling"] == "hole"
    creases = [step for step in STEPS if step.endswith("Creasing")]
    assert len(creases) >= 5
    assert {STEPS[step] for step in creases} == {"crease"}
    assert STEPS["Positions/ContentArea"] == "safe"
    assert all(STEPS[group] for group in ("Legend", "Dimensions", "White", "Varnish", "Braille"))
