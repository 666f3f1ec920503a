"""What words became at a place: told where both pages were read, and never where they were not."""

from __future__ import annotations

import pytest

from mockup.comparing.comparison import Comparison
from mockup.comparing.kinds import Kind
from mockup.comparing.places import Place
from mockup.comparing.wording import WORDS_MOST, Reworded, Word, plain_text, reworded
from mockup.geometry.point import Box, Point

MIDDLE = Point(2.5, 3.5)
LETTER_IN, LINE_IN = 0.1, 0.3


def page(*lines: str, right: float = 0.0, down: float = 0.0) -> list[Word]:
    """Returns words in lines, every letter a tenth of an inch wide."""
    words: list[Word] = []
    for number, line in enumerate(lines):
        at = 0
        for text in line.split(" "):
            left, top = 1 + at * LETTER_IN + right, 1 + number * LINE_IN + down
            box = Box(left, top, left + len(text) * LETTER_IN, top + 0.2)
            words.append(Word(text, box, number))
            at += len(text) + 1
    return words


def around(line: int, start: int, end: int, kind: Kind = Kind.CHANGED) -> Place:
    """Returns a place from one letter of a line to another."""
    top = 1 + line * LINE_IN
    box = Box(1 + start * LETTER_IN, top, 1 + end * LETTER_IN, top + 0.2)
    return Place(box, kind, Point(0, 0), 100)


def told(
    before: list[Word], now: list[Word], *places: Place, how: Comparison | None = None
) -> tuple[tuple[Reworded, ...], ...]:
    return reworded(how or Comparison(places), before, now, (MIDDLE, MIDDLE))


def test_an_hour_is_told_with_the_word_beside_it() -> None:
    before, now = page("at 7 o'clock sharp"), page("at 8 o'clock sharp")
    assert told(before, now, around(0, 3, 4)) == ((Reworded("7 o'clock", "8 o'clock"),),)


def test_at_the_end_of_a_line_a_short_word_is_told_with_the_one_before() -> None:
    before, now = page("on October 3", "at noon"), page("on October 4", "at noon")
    assert told(before, now, around(0, 11, 12)) == ((Reworded("October 3", "October 4"),),)


def test_several_words_are_told_together_and_each_where_it_stands() -> None:
    before = page("oysters and dry cider", "by the mill")
    now = page("oysters and sweet perry", "by the pond")
    first, second = told(before, now, around(0, 12, 23), around(1, 7, 11))
    assert first == (Reworded("dry cider", "sweet perry"),)
    assert second == (Reworded("mill", "pond"),)


def test_of_two_places_in_one_run_of_words_each_tells_its_own() -> None:
    before, now = page("Seven Bells"), page("Eight Gongs")
    assert told(before, now, around(0, 0, 5), around(0, 6, 11)) == (
        (Reworded("Seven", "Eight"),),
        (Reworded("Bells", "Gongs"),),
    )


def test_a_mark_that_shrank_is_told_with_the_word_it_follows() -> None:
    """The place holds the comma's tail alone: the full stop of the word now does not reach it."""
    before, now = page("oysters, bread"), page("oysters. bread")
    tail = Place(Box(1.72, 1.19, 1.8, 1.24), Kind.VANISHED, Point(0, 0), 60)
    before[0] = Word("oysters,", Box(1, 1, 1.8, 1.24), 0)
    assert told(before, now, tail) == ((Reworded("oysters,", "oysters."),),)


def test_of_words_that_changed_over_two_lines_each_place_tells_those_in_it() -> None:
    before = page("samphire and cider", "The Millers of Samphire Hard")
    now = page("samphire and bread with butter", "Carriages at midnight")
    first, second = told(before, now, around(0, 13, 30), around(1, 0, 28))
    assert first == (Reworded("cider", "bread with butter"),)
    assert second == (Reworded("The Millers of Samphire Hard", "Carriages at midnight"),)


def test_what_came_into_a_line_is_new_and_what_went_is_gone() -> None:
    short, long = page("oysters cider bread"), page("oysters perry cider bread")
    assert told(short, long, around(0, 8, 25)) == ((Reworded("", "perry"),),)
    assert told(long, short, around(0, 8, 25)) == ((Reworded("perry", ""),),)


def test_words_that_flow_on_to_the_next_line_are_not_told_as_new() -> None:
    before = page("we sit down to supper", "when the tide turns")
    now = page("we all sit down to", "supper when the tide turns")
    first, second = told(before, now, around(0, 3, 21), around(1, 0, 26))
    assert first == (Reworded("", "all"),)
    assert second == ()


def test_lines_that_changed_places_say_nothing_new() -> None:
    before, now = page("bread", "cider and perry"), page("cider and perry", "bread")
    assert told(before, now, around(0, 0, 15), around(1, 0, 15)) == ((), ())


def test_words_that_only_moved_say_nothing() -> None:
    before, now = page("The Tide Mill"), page("The Tide Mill", right=0.3, down=0.1)
    assert told(before, now, around(0, 0, 16, Kind.MOVED)) == ((),)


def test_words_parted_otherwise_say_nothing() -> None:
    before, now = page("at 7 o' clock"), page("at 7 o'clock")
    assert told(before, now, around(0, 5, 13)) == ((),)


def test_a_change_elsewhere_is_not_told_here() -> None:
    before, now = page("bread", "cider"), page("bread", "perry")
    assert told(before, now, around(0, 0, 5)) == ((),)


def test_another_colour_says_nothing_of_words() -> None:
    before, now = page("bread"), page("cider")
    assert told(before, now, around(0, 0, 5, Kind.RECOLOURED)) == ((),)


@pytest.mark.parametrize("kind", [Kind.CHANGED, Kind.MOVED])
def test_type_that_was_outlined_before_is_not_told_as_new(kind: Kind) -> None:
    assert told([], page("Supper at 8"), around(0, 10, 11, kind)) == ((),)
    assert told(page("Supper at 8"), [], around(0, 10, 11, kind)) == ((),)


def test_on_blank_paper_words_are_new_though_nothing_else_was_read() -> None:
    words = page("Supper at 8")
    assert told([], words, around(0, 0, 11, Kind.APPEARED)) == ((Reworded("", "Supper at 8"),),)
    assert told(words, [], around(0, 0, 11, Kind.VANISHED)) == ((Reworded("Supper at 8", ""),),)
    assert told([], words, around(0, 0, 6, Kind.APPEARED)) == ((Reworded("", "Supper"),),)


def test_words_are_found_where_all_of_it_moved_and_grew() -> None:
    """Plane geometry: a point p of the picture before lies at m + s (p - m) + d of the one now."""
    scaled, far = 1.1, Point(0.4, -0.3)

    def laid(word: Word) -> Word:
        x = [MIDDLE.x + scaled * (each - MIDDLE.x) + far.x for each in word.box[::2]]
        y = [MIDDLE.y + scaled * (each - MIDDLE.y) + far.y for each in word.box[1::2]]
        return Word(word.text, Box(x[0], y[0], x[1], y[1]), word.line)

    before = page("at noon", "with cider")
    now = [laid(word) for word in page("at noon", "with perry")]
    place = Place(now[-1].box.grown(-0.02), Kind.CHANGED, Point(0, 0), 100)
    how = Comparison((place,), scaled=scaled, moved_in=far)
    assert told(before, now, how=how) == ((Reworded("cider", "perry"),),)


def test_a_page_of_more_words_than_are_compared_says_nothing() -> None:
    many = page(" ".join(f"w{k}" for k in range(WORDS_MOST + 1)))
    assert told(many, many[1:], around(0, 0, 5)) == ((),)


@pytest.mark.parametrize(
    ("letters", "said"),
    [
        ("o\ufb03ce", "office"),  # Unicode, Alphabetic Presentation Forms: FB03 is ffi
        ("\ufb01ve", "five"),
        ("Cafe\u0301", "Caf\u00e9"),  # Unicode Standard Annex 15, form C
        ("sam\u00adphire", "samphire"),
        ("x\u00b2", "x\u00b2"),
        ("o\u2019clock", "o\u2019clock"),
        ("\u05e9\u05dc\u05d5\u05dd", None),  # Hebrew
        ("\u0645\u0631\u062d\u0628\u0627", None),  # Arabic
        ("\u0661\u0669", None),  # digits beside Arabic letters
        ("ab\u202ecd", None),  # a turn of direction
        ("ab\x03", None),
        ("ab\ufffd", None),
        ("\ue000", None),  # for private use
        ("\u6c34\u8eca", "\u6c34\u8eca"),
    ],
)
def test_letters_say_what_can_be_told_and_set(letters: str, said: str | None) -> None:
    assert plain_text(letters) == said
