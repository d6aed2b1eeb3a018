"""If these fail, the tape says another place than it shows."""

from studio_gui.domain.turns import Turn
from studio_gui.wording.tape_words import (
    about_words,
    gap_words,
    lane_words,
    piece_words,
    place_words,
    turn_words,
)
from studio_gui.wording.translation import ENGLISH, Tongue

INCHES = Tongue("us", is_english=True)


def test_places_and_lengths_are_in_the_unit_that_is_shown() -> None:
    assert place_words(0.635, ENGLISH) == "63.5"
    assert place_words(0.635, INCHES) == "25.00"
    assert "3.2 m" not in about_words(3.2, ENGLISH)
    assert "320 cm" in about_words(3.2, ENGLISH)
    assert "(in)" in about_words(3.2, INCHES)


def test_a_piece_before_the_lay_has_a_minus_that_is_no_hyphen() -> None:
    assert piece_words(1, 9, -0.1, 0.15, ENGLISH) == "Piece 1 of 9: \u221210 to 15 cm"


def test_gaps_and_overlaps_are_told_apart_by_their_words() -> None:
    assert gap_words(0.02, ENGLISH) == "gap 2 cm"
    assert gap_words(-0.02, ENGLISH) == "overlap 2 cm"


def test_folds_are_counted_where_there_are_several() -> None:
    assert turn_words([(1, Turn(3.0, "fold", True))], 1, ENGLISH) == "fold"
    here = [(1, Turn(3.0, "fold", True)), (3, Turn(3.0, "fold", True))]
    assert turn_words(here, 3, ENGLISH) == "fold 1, fold 3"


def test_lanes_name_the_roving_where_each_has_its_own() -> None:
    assert lane_words(None, 1, ENGLISH) == "leg 1"
    assert lane_words(2, 1, ENGLISH) == "roving 2, leg 1"
