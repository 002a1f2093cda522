"""The plates in words: captions, what is heard, and the figures that stand on the demo's plates."""

from __future__ import annotations

import math
import re

from strained import every_piece, kind_of, piece, plates

from furnlib.base.units import write_length
from furnlib.draw.drawing import Text


@every_piece
def test_a_caption_has_at_most_two_lines_that_say_something(name):
    for plate in plates(name):
        lines = plate.caption.splitlines()
        assert 1 <= len(lines) <= 2
        assert all(line.endswith(".") and len(line) > 10 for line in lines)


def said_of(name, kind):
    return " ".join(plate.spoken for plate in plates(name) if kind_of(plate) == kind)


def check_said(said, values, unit):
    """Every length stands in the words as it is read out, whole: 151 is not heard in 1151 or 151.9."""
    for value in values:
        number = write_length(value, unit, style="spoken").removesuffix(f" {unit}")
        assert re.search(rf"(?<![\d/.]){re.escape(number)}(?![\d/]|\.\d)", said), (number, said)


@every_piece
def test_the_spoken_words_are_whole_sentences_in_plain_figures(name):
    for plate in plates(name):
        assert plate.spoken.endswith(".")
        assert not re.search("[⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄\u202f\n]", plate.spoken), plate.spoken
        assert not re.search(r"(?<![\d,.] )\b1 (rows|drawers|millimetres|inches)\b", plate.spoken), plate.spoken


@every_piece
def test_the_spoken_words_hold_the_main_numbers(name):
    design, made = piece(name).design, piece(name)
    overall = said_of(name, "Overall")
    check_said(overall, [design.overall.height, design.overall.width, design.overall.depth], design.unit)
    if hasattr(design, "rows"):
        assert re.search(rf"\b{design.rows.number} (and \d+ )?row", overall) or (
            design.rows.number == 1 and "one row" in overall
        )
        check_said(said_of(name, "Openings"), [row.opening for row in made.rows.rows], design.unit)
    if made.legs:
        check_said(overall, [made.stand.heights[0]], design.unit)
        check_said(said_of(name, "Legs"), [leg.axis_length for leg in made.legs], design.unit)
        assert all(leg.position in said_of(name, "Legs").lower() for leg in made.legs)
        for leg in made.legs:  # a plumb turned leg needs no cradle
            if leg.end_cut or leg.lean.total_lean_deg:
                assert leg.position in said_of(name, "Saw card" if leg.end_cut else "Cradle").lower()
    if made.legs and made.legs[0].end_cut and not made.legs[0].drilling:  # under a seat only the foot is sawn level
        check_said(said_of(name, "Saw card"), [leg.end_cut.axis_length for leg in made.legs], design.unit)
        step = 0.1 if design.unit == "mm" else 1 / 32
        sawn = [leg.blank for leg in made.legs if not leg.turned]  # that of a turned leg stands on its own card
        least = [math.ceil(blank / step - 1e-6) * step for blank in sawn]  # never too short
        check_said(said_of(name, "Saw card"), least, design.unit)


# What stands on the demo's plates, by hand


def words_of(name, number):
    return [mark.words.replace("\u202f", " ") for mark in plates(name)[number].marks() if isinstance(mark, Text)]


def words_on_first(name, kind):
    return words_of(name, [kind_of(plate) for plate in plates(name)].index(kind))


def test_the_overall_plate_shows_the_settled_sizes_in_bold_and_the_chains():
    bold = {mark.words for mark in plates("metric")[0].marks() if isinstance(mark, Text) and mark.bold}
    assert {"1300", "520", "380", "151"} <= bold
    assert "1149" not in bold
    words = " ".join(words_of("metric", 0))
    for part in ("1149", "20 + 1001 + 108 + 20 = 1149", "1149 + 151 = 1300", "20 + 480 + 20 = 520", "5 : 2"):
        assert part in words


def test_the_openings_plate_shows_running_sizes_clear_sizes_and_the_chain():
    words = words_on_first("metric", "Openings")
    running = ["0", "20", "103", "121", "224", "242", "365", "383", "526", "544", "707", "725", "908", "926", "1129"]
    for size in [*running, "1149"]:
        assert size in words
    for size in ("103", "123", "143", "163", "183", "203", "83 x 231"):
        assert words.count(size) >= 1
    assert "83 + 103 + 123 + 143 + 163 + 183 + 203 = 1001" in " ".join(words)


def test_the_legs_plate_and_the_saw_card_show_the_names_of_the_lean_and_the_settings():
    legs = " ".join(words_on_first("metric", "Legs"))
    for part in ("9.95°", "36.8°", "90°", "153.3", "151.8", "21.2", "15.9", "from the side", "from the front"):
        assert part in legs
    card = " ".join(words_on_first("metric", "Saw card"))
    for part in ("mitre", "tilt", "8°", "5.9°", "6°", "153.3", "151.8", "165.1", "156.9", "48 square"):
        assert part in card
    inch = " ".join(words_on_first("inch", "Saw card"))
    # 6.472 in is nearest 6 15/32, 6.93 in nearest 6 15/16
    assert "6 ¹⁵⁄₃₂" in inch
    assert "6 ¹⁵⁄₁₆" in inch


def test_a_caution_stands_beside_the_saw_settings():
    for name in ("metric", "inch", "four leans", "small box on legs"):
        cards = [number for number, plate in enumerate(plates(name)) if kind_of(plate) == "Saw card"]
        for number in cards:  # on every sheet: each may hang alone beside the saw
            card = " ".join(words_of(name, number)).lower()
            for part in ("off-cut", "mitre gauge or the fence", "clamp", "push stick"):
                assert part in card


def test_no_decimals_of_an_inch_stand_where_a_tape_is_read():
    read = {"Overall", "Proportion", "In the round", "Openings", "Openings stick", "Legs", "Saw card"}
    for number in [n for n, plate in enumerate(plates("inch")) if kind_of(plate) in read]:
        for said in words_of("inch", number):
            words = re.sub(r"1 : [\d.]+|[\d.]+ : 1", "", said)  # ratios
            if re.search(r"\d\.\d", words):  # angles; what is off a ratio; the ideal column
                assert "°" in words or "%" in words or re.fullmatch(r"[+-]?\d+\.\d{3}", words), words


def test_a_leg_that_stands_alone_is_drawn_as_itself_on_the_saw_card():
    cards = [number for number, plate in enumerate(plates("four leans")) if kind_of(plate) == "Saw card"]
    words = [line for number in cards for line in words_of("four leans", number)]
    drawn = [line for line in words if "rawn for the" in line]
    for position in ("front left", "front right", "rear left", "rear right"):
        assert any(position in line for line in drawn) or not drawn, (position, drawn)
