"""What the names of layers, inks and processing steps mean: the one vocabulary of print templates.

Die words in English, German, French, Italian, Spanish, Portuguese, Dutch, Polish, Swedish with
Danish, and Czech; common practice, no source. Processing steps by ISO 19593-1:2018, from memory.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from functools import cache, lru_cache
from typing import Literal, get_args

Meaning = Literal[
    "other", "registration", "dimensions", "legend", "kiss cut", "perforation", "crease", "hole",
    "glue", "foil", "letterpress", "deboss", "emboss", "varnish", "braille", "bleed", "safe",
    "cut", "trim", "white", "guide",
]  # fmt: skip

TEMPLATE: frozenset[Meaning] = frozenset(
    ("registration", "dimensions", "kiss cut", "perforation", "crease", "hole", "glue",
     "bleed", "safe", "cut", "trim", "guide")
)  # fmt: skip
"""What belongs to a template and not to the art: foil is printed, and maps have legends."""

# Names that say it whatever else a name holds: nobody calls a drawing so.
_SURE: dict[Meaning, str] = {
    "other": "no cut, not cut, no die, do not cut, nicht stanzen, ohne stanze, sans decoupe, "
    "senza fustella, sin troquel, zonder stans",
    "registration": "registration marks, registration mark, reg marks, crop marks, crop mark, "
    "cropmarks, trim marks, cut marks, printers marks, printer marks, passermarken, passkreuze, "
    "schneidemarken, schnittmarken, traits de coupe, reperes de coupe, crocini, segni di taglio, "
    "marcas de corte, marcas de registro, snijtekens, paskruizen, znaczniki ciecia, pasery, "
    "skarmarken, skaeremaerker, passkors, orezove znacky, registracni znacky",
    "dimensions": "die dimensions, bemassung, massangaben, maatvoering, mattsattning, kotovani, "
    "acotacion, quotatura",
    "legend": "die legend, title block, stanzlegende",
    "kiss cut": "kiss cut, kisscut, kiss cutting, half cut, halfcut, anstanzung, anstanzen, "
    "mi chair, mezzotaglio, mezzo taglio, medio corte, meio corte, halve snede",
    "perforation": "perforation line, perf line, perfline, perforationslinie, "
    "ligne de perforation, linea di perforazione, perforatielijn, linia perforacji, "
    "perforeringslinje",
    "crease": "crease line, crease lines, creaseline, fold line, fold lines, foldline, foldlines, "
    "score line, score lines, scoreline, mountain fold, valley fold, rilllinie, rillung, "
    "falzlinie, falzlinien, ligne de pli, ligne de rainage, rainage, cordonatura, cordonature, "
    "linea di piega, linea de plegado, linea de hendido, hendido, hendidos, linha de vinco, "
    "linha de dobra, vincos, rillijn, vouwlijn, vouwlijnen, linia bigowania, linia zagiecia, "
    "bigowanie, biglinje, falslinje, ryhovani, bigovani",
    "hole": "drill hole, drill holes, punch hole, punch holes, hole punch, bohrung, bohrungen, "
    "bohrloch, boorgat, boorgaten, borrhal, percage, foratura, furacao, vrtani",
    "glue": "glue flap, glue area, glue line, klebelasche, klebeflache, lijmvlak, incollatura",
    "foil": "hot foil, cold foil, foil stamp, foil stamping, heissfolie, pragefolie, "
    "folienpragung, dorure a chaud, stampa a caldo, hot stamping, hotstamping, foliedruk, "
    "folietryck, foil die, marquage a chaud, lamina a caldo, estampacion en caliente, "
    "foil estampado, hot foil stempel, hotstamp, zlocenie, varmfolie, horka razba, "
    "gold foil, silver foil, copper foil, bronze foil, rose gold foil, black foil, white foil, "
    "clear foil, foil gold, foil silver, goldfolie, silberfolie, kupferfolie",
    "letterpress": "letterpress, letter press, buchdruck, impression typographique, "
    "stampa tipografica, impresion tipografica, impressao tipografica, boekdruk, "
    "druk typograficzny, boktryck, bogtryk, knihtisk",
    "deboss": "blind deboss, deboss die, tiefpragung, debossage, gaufrage en creux, "
    "embossage en creux, impressione a secco, golpe en seco, bajo relieve, bajorrelieve, "
    "baixo relevo, verdiept preeg, diep preeg, tloczenie wklesle, fordjupad pragling, "
    "dybpraegning, hluboka razba",
    "emboss": "blind emboss, blindpragung, hochpragung, gaufrage, goffratura, gofrado, blinddruk, "
    "slepotisk, tloczenie, emboss die, rilievo a secco, alto relieve, alto relevo, reliefpragung, "
    "hoogpreeg, tloczenie wypukle, reliefpragling, relieftryk",
    "varnish": "spot uv, spot varnish, spot gloss, uv lack, uv varnish, vernis uv, vernice uv, "
    "spotlack, vernis selectif, vernice selettiva, verniz localizado, barniz selectivo, spotlak, "
    "lakier wybiorczy, partiell lack, parcialni lak",
    "bleed": "bleed line, bleed area, bleedline, beschnittzugabe, fond perdu, fonds perdus, "
    "abbondanza, abbondanze, smarginatura, afloop, spadavka, utfallande",
    "safe": "safe zone, safe area, safe margin, safe line, safety zone, safety line, "
    "safety margin, safety area, safezone, safearea, live area, livearea, quiet zone, type safe, "
    "text safe, keep text inside, keep text within, "
    "sicherheitsabstand, sicherheitszone, sicherheitsbereich, sicherheitsrand, "
    "schutzzone, zone de securite, marge de securite, zone tranquille, area di sicurezza, "
    "margine di sicurezza, zona di sicurezza, zona segura, area segura, zona de seguridad, "
    "area de seguridad, margen de seguridad, margem de seguranca, area de seguranca, "
    "veiligheidsmarge, veilige zone, veilige marge, veiligheidszone, margines bezpieczenstwa, "
    "strefa bezpieczna, sakerhetsmarginal, sakerhetszon, sikkerhedsmargen, sikkerhedszone, "
    "bezpecna zona, bezpecnostni zona, ochranna zona",
    "cut": "die line, die lines, dieline, dielines, die cut, die cuts, diecut, die cutting, "
    "diecutting, cut line, cut lines, cutline, cutlines, cut contour, cutcontour, cut path, "
    "cutpath, cutting line, cutting lines, thru cut, thrucut, through cut, throughcut, "
    "stanzlinie, stanzlinien, stanzform, stanzkontur, stanzung, stanzen, stanze, stanzmesser, "
    "schneidelinie, schnittlinie, schnittkontur, konturschnitt, fustella, fustelle, fustellatura, "
    "linea di taglio, ligne de coupe, ligne de decoupe, trace de decoupe, forme de decoupe, "
    "trait de coupe, trait de decoupe, troquel, troquelado, linea de corte, linea de troquel, "
    "faca de corte, linha de corte, stanslijn, stansvorm, stanscontour, stansmes, snijlijn, "
    "wykrojnik, sztanca, linia ciecia, linia wykrawania, stanslinje, stansform, stansning, "
    "skarlinje, skaerelinje, vysek, vysekova linie, linie vyseku, rezaci linie",
    "trim": "trim line, trim lines, trimline, trim box, trimbox, trim size, trim edge, "
    "finished size, final size, endformat, "
    "beschnittlinie, format fini, format rogne, linea di rifilo, formato finale, formato final, "
    "linha de refile, eindformaat, nettoformaat, format netto, cisty format, renskuren, renskaret",
    "white": "white ink, white underprint, white underbase, deckweiss, blanc de soutien",
    "guide": "do not print, dont print, non printing, nonprinting, no print, noprint, "
    "not for print, guide lines, guidelines, hilfslinie, hilfslinien, nicht drucken, gabarit, "
    "ne pas imprimer, non stampare, no imprimir, nao imprimir, hulplijn, hulplijnen, niet drukken, "
    "niet printen, nie drukowac, prowadnice, stodlinjer, hjaelpelinjer, trycks ej, netisknout",
}  # fmt: skip

# Words that art is named by as well: believed where a name holds nothing that is not of the trade.
_ALONE: dict[Meaning, str] = {
    "other": "no, not, art, artwork",
    "registration": "registration, crops, passer, hirondelles, registro, reperage",
    "dimensions": "dimension, dimensions, dims, cotes, cotation, cotas, medidas, misure, maten, "
    "wymiary, koty, rozmery",
    "legend": "legend, legende, legenda, leyenda, slug",
    "perforation": "perf, perfs, perforation, perforations, perforating, perforated, "
    "perforazione, perforacion, perfuracao, picote, perforatie, perforacja, perforace, perforering",
    "crease": "crease, creases, creasing, fold, folds, folding, score, scores, scoring, rill, "
    "rillen, nutung, falz, falzung, falzen, pli, plis, pliage, rainure, piega, pieghe, "
    "piegatura, plegado, pliegue, pliegues, doblez, vinco, dobra, dobras, ril, vouw, vouwen, biga, "
    "zagiecie, falcowanie, bigning, falsning, ryha, ryhy, ohyb",
    "hole": "hole, holes, drill, drills, drilling, drilled, punch, punches, punching, "
    "locher, lochung, bohren, trou, trous, foro, fori, agujero, agujeros, taladro, taladros, "
    "orificio, furo, furos, gat, gaten, boren, otwor, otwory, wiercenie, hal, huller, otvor, "
    "otvory",
    "glue": "glue, gluing, glueing, adhesive, kleben, leim, colle, colla, pegamento, encolado, "
    "colagem, lijm, klej, klejenie, lepidlo, lepeni",
    "foil": "foil, foils, foiling, folie, dorure, folia, razba",
    "deboss": "deboss, debossing, debossed",
    "emboss": "emboss, embossing, embossed, pragung, embossage, rilievo, "
    "relieve, relevo, preeg, pragling, pragning, praegning",
    "varnish": "varnish, varnishfree, uv, lack, lackierung, vernis, vernice, barniz, verniz, lak, "
    "lakier",
    "braille": "braille, brailleschrift",
    "bleed": "bleed, bleeds, anschnitt, beschnitt, debord, debords, sangrado, sangria, spad, "
    "spady, spadow, utfall",
    "safe": "safe, safety, securite, sicurezza, seguridad, seguranca",
    "cut": "cut, cuts, cutting, cutter, die, dies, knife, decoupe, coupe, taglio, corte, "
    "faca, stans, stansen, snijden, ciecie, skarning",
    "trim": "trim, trims, rogne, rifilo, refilo, refile, netto, beskaring, beskaering, orez",
    "white": "white, weiss, blanc, bianco, blanco, branco, wit, bialy, vit, hvid, bila",
    "guide": "guide, guides, template, templates, keyline, keylines, vorlage, schablone, guida, "
    "guia, guias, plantilla, gabarito, sjabloon, szablon, skabelon, voditka, sablona",
}

# Words that say nothing either way: of lines and layers, of sides and pieces, of files and units.
_BESIDE = (
    "line lines layer layers contour contours outline outlines path paths shape shapes area zone "
    "margin box edge mark marks guide guides group spot color colour pms only final new old copy "
    "ebene linie linien kontur calque ligne lignes trace forme livello linea linee tracciato capa "
    "lineas linha linhas camada laag lijn lijnen warstwa linia linie lager linje linjer vrstva "
    "kopie copia copie x v in inch inches mm cm pt and or the a of to for with on at und der das "
    "des fur mit et de du la le les un une pour e di il lo per con y el los para o do da van het "
    "een voor en i dla z och med pro all inner outer inside outside front back top bottom left "
    "right side sides round rounded corner corners steel rule laser custom special arch lancet "
    "ogee ticket scallop scalloped oval ellipse circle rectangle square tag wavy notched "
    "invitation card reply rsvp details envelope liner menu place label sticker box carton gold "
    "silver copper matte gloss magenta cyan through thru hard soft full"
)

# What the main card of a suite is called, from memory.
_INVITATION = (
    "invitation invitations invite einladung einladungskarte invito partecipazione invitación "
    "invitacion convite uitnodiging inbjudan invitasjon indbydelse zaproszenie pozvánka pozvanka"
)
INVITATION = frozenset(_INVITATION.split())

# ISO 19593-1:2018, groups and their types, from memory; White, Legend and the like have no types.
STEPS: dict[str, Meaning] = {
    "Structural/Cutting": "cut",
    "Structural/Punching": "hole",
    "Structural/Drilling": "hole",
    "Structural/PartialCutting": "kiss cut",
    "Structural/ReversePartialCutting": "kiss cut",
    "Structural/Creasing": "crease",
    "Structural/ReverseCreasing": "crease",
    "Structural/CuttingCreasing": "crease",
    "Structural/ReverseCuttingCreasing": "crease",
    "Structural/PartialCuttingCreasing": "crease",
    "Structural/ReversePartialCuttingCreasing": "crease",
    "Structural/Folding": "crease",
    "Structural/Perforating": "perforation",
    "Structural/Gluing": "glue",
    "Structural/Stapling": "other",
    "Structural/FoilStamping": "foil",
    "Structural/ColdFoilStamping": "foil",
    "Structural/Embossing": "emboss",
    "Structural/Debossing": "deboss",
    "Structural/Bleed": "bleed",
    "Structural/VarnishFree": "varnish",
    "Structural/InkFree": "other",
    "Structural/InkVarnishFree": "varnish",
    "Positions/ContentArea": "safe",
    "Positions/Hologram": "other",
    "Positions/Barcode": "other",
    "Positions/CodingMarking": "other",
    "Positions/Imprinting": "other",
    "Dimensions": "dimensions",
    "Legend": "legend",
    "Braille": "braille",
    "Varnish": "varnish",
    "White": "white",
}
CUTTING, PUNCHING, DRILLING = "Structural/Cutting", "Structural/Punching", "Structural/Drilling"
BLEED, CONTENT_AREA = "Structural/Bleed", "Positions/ContentArea"

_CAMEL = re.compile(r"(?<=[a-z])(?=[A-Z])|(?<=[A-Z])(?=[A-Z][a-z])")
_WORD = re.compile(r"[^\W\d_]+")
_APOSTROPHE = re.compile(r"(?<=[^\W\d_])['’](?=[st]\b)", re.I)  # "printer's", "don't"
_PLAIN = str.maketrans({"ø": "o", "ł": "l", "æ": "ae", "đ": "d"})
_LONGEST = 3  # words of the longest sure name above


def meaning(names: Iterable[str]) -> tuple[Meaning, str] | None:
    """Returns what names, outermost first, say a path is, and the name that says it, or None.

    The innermost name that says anything wins: a "bleed" in a group called "die" is a bleed.
    """
    for name in reversed(tuple(names)):
        what = name_meaning(name)
        if what is not None:
            return what, name
    return None


@lru_cache(maxsize=4096)
def name_meaning(name: str) -> Meaning | None:
    """Returns what one name of a layer or an ink says, or None where it says nothing of the trade.

    A sure name counts whatever stands beside it. A common word ("cut", "safety", "fold") counts
    where everything beside it is of the trade too: "cut outer" is a cut, "Cut paper flowers" is
    art. Of several the first of `Meaning` wins: "bleed of the die" is a bleed, "no cut" none.
    """
    words = _words(name)
    sure, common = _table("sure"), _table("common")
    said: set[Meaning] = set()
    perhaps: set[Meaning] = set()
    strange = False
    while words:
        length = next((n for n in range(_LONGEST, 0, -1) if words[:n] in sure), 0)
        if length:
            said.add(sure[words[:length]])
        elif words[:1] in common:
            perhaps.add(common[words[:1]])
        elif len(words[0]) > 1 and words[0] not in _beside():
            strange = True
        words = words[max(length, 1) :]
    if not strange:
        said |= perhaps
    return next((what for what in get_args(Meaning) if what in said), None)


def said_first(words: str) -> Meaning | None:
    """Returns what a label of a legend names first, whatever else it goes on to say, or None.

    "Safe zone: keep text inside the cut" is of the safe zone. Guides are passed over: every line
    of a template is one.
    """
    parts = _words(words)
    known: dict[tuple[str, ...], Meaning] = {**_table("common"), **_table("sure")}
    while parts:
        length = next((n for n in range(_LONGEST, 0, -1) if parts[:n] in known), 0)
        if length and known[parts[:length]] != "guide":
            return known[parts[:length]]
        parts = parts[max(length, 1) :]
    return None


def plain_words(text: str) -> tuple[str, ...]:
    """Returns a text's words, small and without accents, as names are compared."""
    return _words(text)


def is_template(name: str) -> bool:
    """Returns whether a layer or an ink of this name is a template's, and no part of the art."""
    return name_meaning(name) in TEMPLATE


@cache
def _table(kind: Literal["sure", "common"]) -> dict[tuple[str, ...], Meaning]:
    rows = _SURE if kind == "sure" else _ALONE
    return {tuple(name.split()): what for what, names in rows.items() for name in names.split(", ")}


@cache
def _beside() -> frozenset[str]:
    return frozenset(_BESIDE.split())


def _words(name: str) -> tuple[str, ...]:
    """Returns a name's words, small, without accents, parted where small letters meet capitals."""
    whole = _APOSTROPHE.sub("", unicodedata.normalize("NFC", _readable(name)))
    parted = _CAMEL.sub(" ", whole)
    small = unicodedata.normalize("NFKD", parted.casefold().translate(_PLAIN))
    plain = "".join(letter for letter in small if not unicodedata.combining(letter))
    return tuple(_WORD.findall(plain))


def _readable(name: str) -> str:
    """Returns a name with its letters; bytes of a PDF that are no UTF-8 are taken as Latin-1."""
    if not any("\udc80" <= letter <= "\udcff" for letter in name):
        return name
    return name.encode("utf-8", "surrogateescape").decode("latin-1")
