"""Lengths, angles and numbers as makers write them, and the sentences of a refusal.

Expected values are exact fractions worked by hand: an inch is 25.4 mm, a foot 12 inches.
"""

from __future__ import annotations

from fractions import Fraction as F

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import (
    DesignError,
    fault_at,
    nearest_word,
    require_between,
    require_finite,
    require_positive,
)
from furnlib.base.reading import parse_length, read_angle, read_count, read_length, read_number
from furnlib.base.units import FINEST, MM_IN, round_length, write_angle, write_exact, write_length, write_number

NARROW = "\u202f"
steady = settings(deadline=None, derandomize=True)


# Reading

READINGS = [
    # text, wanted unit, exact value, converted
    ('5 11/16"', "in", F(91, 16), False),
    ('5-11/16"', "in", F(91, 16), False),
    ("5 11/16", "in", F(91, 16), False),
    ("5 11 / 16", "in", F(91, 16), False),
    ("11/16", "in", F(11, 16), False),
    ("5' 3 1/2\"", "in", F(127, 2), False),
    ("5'3\"", "in", F(63), False),
    ("5' 3", "in", F(63), False),
    ("5' 3 1/2", "in", F(127, 2), False),
    ("5' 3", "mm", F(63 * 254, 10), True),
    ("5 ft 3 in", "in", F(63), False),
    ("5'", "in", F(60), False),
    ("5½", "in", F(11, 2), False),
    ("5 ½", "in", F(11, 2), False),
    ("½", "in", F(1, 2), False),
    ("5⅞ in", "in", F(47, 8), False),
    ("5 ¹¹⁄₁₆", "in", F(91, 16), False),
    (f"5{NARROW}11/16", "in", F(91, 16), False),
    ("5′ 3½″", "in", F(127, 2), False),
    ("5’ 3”", "in", F(63), False),
    ("5′ 3′′", "in", F(63), False),
    ("5''", "in", F(5), False),
    ("0.5in", "in", F(1, 2), False),
    (".5", "in", F(1, 2), False),
    ("5.", "in", F(5), False),
    ("0.5 IN", "in", F(1, 2), False),
    ("146", "mm", F(146), False),
    ("  146  ", "mm", F(146), False),
    ("146 mm", "mm", F(146), False),
    ("146mm", "in", F(1460, 254), True),
    ("14,6 cm", "mm", F(146), False),
    ("14.6 cm", "mm", F(146), False),
    ("14,6", "mm", F(146, 10), False),
    ("1,3005 m", "mm", F(13005, 10), False),
    ("1.300", "mm", F(13, 10), False),
    ("1 m", "mm", F(1000), False),
    ("3/4 in", "mm", F(1905, 100), True),
    ("-3", "mm", F(-3), False),
    ("−3 1/2", "in", F(-7, 2), False),
    ("-5' 3\"", "in", F(-63), False),
    ("0", "mm", F(0), False),
    ("100 m", "mm", F(100_000), False),
]


@pytest.mark.parametrize(("text", "unit", "value", "converted"), READINGS)
def test_a_length_is_read_exactly(text, unit, value, converted):
    reading = parse_length(text, unit)
    assert reading.value == value
    assert reading.converted is converted
    assert read_length(text, unit) == value


REFUSALS = [
    ("", "No length is written"),
    ("   ", "No length is written"),
    ("1,300", "comma before three digits.*write 1300, or 1.300"),
    ("0,125", "comma before three digits"),
    ("5' 3,500\"", "comma before three digits"),
    ("1,300,000", "comma before three digits"),
    ("NaN", "'NaN' cannot be read as a length"),
    ("inf", "'inf' cannot be read as a length"),
    ("1e5", "'1e5' cannot be read as a length"),
    ("100.1 m", "'100.1 m' is longer than 100 m; check the number and its unit"),
    ("-100.1 m", "longer than 100 m"),
    ("100001", "longer than 100 m"),
    ("5 3/0", "'5 3/0' has a fraction over 0"),
    ("1" * 61, "too long for a length"),
    ("5 yd", "'5 yd' cannot be read as a length; write it like"),
    ("5 kg", "'5 kg' cannot be read as a length"),
    ("mm", "cannot be read as a length"),
    ("--5", "cannot be read as a length"),
    ("3/4/5", "cannot be read as a length"),
    ("1.300,5", "cannot be read as one length"),
    ("5 3", "'5 3' cannot be read as one length"),
    ("5 mm 3 in", "cannot be read as one length"),
    ("3 in 5 ft", "cannot be read as one length"),
    ("½½", "cannot be read as one length"),
]


@pytest.mark.parametrize(("text", "sentence"), REFUSALS)
def test_what_is_no_length_is_refused_in_one_sentence(text, sentence):
    with pytest.raises(DesignError, match=sentence):
        parse_length(text, "mm")


@pytest.mark.parametrize(("text", "value"), [("5¹⁄₂", F(11, 2)), ("5¹¹⁄₁₆ in", F(91, 16))])
def test_small_fraction_figures_close_behind_the_whole_part_stay_a_fraction(text, value):
    assert read_length(text, "in") == value


@pytest.mark.parametrize("text", ["5²", "146 mm²"])
def test_a_raised_figure_that_is_no_fraction_is_refused(text):
    with pytest.raises(DesignError):
        read_length(text, "mm")


@steady
@given(
    st.one_of(
        st.text(max_size=70),
        st.text(alphabet="0123456789 -/.,'\"′″½⅛¹₂⁄mcinft°e", max_size=12),
    ),
    st.sampled_from(["mm", "in"]),
)
def test_any_text_is_read_or_refused_and_nothing_else_happens(text, unit):
    for read in (lambda t: read_length(t, unit), read_angle, read_number, read_count):
        try:
            value = read(text)
        except DesignError as refusal:
            assert str(refusal).endswith(".")
        else:
            assert isinstance(value, F | int)


@pytest.mark.parametrize("text", ["7.5", "7,5", "7 1/2", "7½°", "7.5°", "7.5 deg", "7.5 DEGREES", "15/2"])
def test_an_angle_is_read_exactly(text):
    assert read_angle(text) == F(15, 2)
    assert read_angle(f"-{text}") == F(-15, 2)


@pytest.mark.parametrize("text", ["", "steep", "8 mm", "8' 30", "NaN", "1e1", "1" * 61])
def test_what_is_no_angle_is_refused(text):
    with pytest.raises(DesignError, match=r"angle.*write it like 8, 8.5 or 8°"):
        read_angle(text)


@pytest.mark.parametrize("text", ["steep", "1" * 61])
def test_the_refusal_of_an_angle_is_good_english(text):
    with pytest.raises(DesignError, match="an angle"):
        read_angle(text)


@pytest.mark.parametrize(
    ("text", "value"), [("1.16", F(29, 25)), ("1,16", F(29, 25)), ("5/4", F(5, 4)), ("1 1/4", F(5, 4))]
)
def test_a_number_is_read_exactly(text, value):
    assert read_number(text) == value


@pytest.mark.parametrize("text", ["", "1:30", "no", "1,300", "1/0", "7 mm"])
def test_what_is_no_number_is_refused(text):
    with pytest.raises(DesignError):
        read_number(text)


def test_a_count_is_whole():
    assert read_count("7") == 7
    assert isinstance(read_count("7.0"), int)
    with pytest.raises(DesignError, match="is not a whole number; write it like 7"):
        read_count("7.5")


# Inches and millimetres


def test_an_inch_is_25_4_mm_exactly():
    assert read_length("1 in", "mm") == F(127, 5)
    assert read_length("25.4 mm", "in") == 1
    assert {name: MM_IN[name] for name in ("cm", "m", "ft")} == {"cm": 10, "m": 1000, "ft": 12 * F(127, 5)}


@steady
@given(st.integers(0, 64 * 3900))
def test_every_64th_goes_to_mm_and_back_without_loss(n):
    mm = read_length(f"{n}/64 in", "mm")
    assert mm == F(n, 64) * F(254, 10)
    assert read_length(f"{mm.numerator}/{mm.denominator} mm", "in") == F(n, 64)


# Writing


@pytest.mark.parametrize(
    ("value", "unit", "style", "text"),
    [
        (F(91, 16), "in", "page", f"5{NARROW}11/16"),
        (F(91, 16), "in", "plate", f"5{NARROW}¹¹⁄₁₆"),
        (F(91, 16), "in", "spoken", "5 11/16 in"),
        (F(1, 2), "in", "page", "1/2"),
        (F(-1, 2), "in", "page", "-1/2"),
        (F(-7, 2), "in", "spoken", "-3 1/2 in"),
        (F(5), "in", "page", "5"),
        (F(0), "in", "page", "0"),
        (F(24, 32), "in", "page", "3/4"),
        (F(9, 64), "in", "page", "9/64"),
        (5.6875, "in", "spoken", "5 11/16 in"),
        (F(1, 3), "in", "page", "11/32"),  # 1/3 is 10.67 thirty-seconds
        (-0.001, "in", "page", "0"),
        (F(146), "mm", "page", "146"),
        (F(146), "mm", "spoken", "146 mm"),
        (153.31, "mm", "page", "153.3"),
        (F(1905, 100), "mm", "page", "19"),  # halfway in tenths: the even tenth, 19.0
        (146.04, "mm", "page", "146"),
        (-0.04, "mm", "page", "0"),
        (-12.34, "mm", "plate", "-12.3"),
    ],
)
def test_a_length_is_written_plainly(value, unit, style, text):
    assert write_length(value, unit, style=style) == text


def test_a_length_can_be_written_finer_or_coarser():
    assert write_length(F(1234, 100), "mm", finest=F(1, 100)) == "12.34"
    assert write_length(F(91, 16), "in", style="spoken", finest=F(1, 8)) == "5 3/4 in"
    assert {unit: str(step) for unit, step in FINEST.items()} == {"mm": "1/10", "in": "1/32"}


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -float("inf")])
def test_what_is_no_number_is_not_written(value):
    for write in (lambda v: write_length(v, "mm"), write_number, write_angle):
        with pytest.raises(DesignError, match="must be an ordinary number"):
            write(value)
    with pytest.raises(DesignError, match="must be an ordinary number"):
        round_length(value, "mm", F(1))


def test_numbers_and_angles_keep_no_needless_zeros():
    numbers = [write_number(v) for v in (1.16, 1.10, 2.0, 100, -0.001, F(1, 3))]
    assert " ".join(numbers) == "1.16 1.1 2 100 0 0.33"
    assert [write_number(v, 0) for v in (100, 9.6)] == ["100", "10"]
    assert [write_angle(v) for v in (8, 8.25, -3.5, 9.9548)] == ["8°", "8.2°", "-3.5°", "10°"]


@steady
@given(st.integers(-64 * 3900, 64 * 3900), st.sampled_from(["page", "plate", "spoken"]))
def test_every_64th_is_written_and_read_back(n, style):
    assert read_length(write_length(F(n, 64), "in", style=style), "in") == F(n, 64)


@steady
@given(st.integers(-999_999, 999_999), st.sampled_from(["page", "plate", "spoken"]))
def test_every_tenth_of_a_mm_is_written_and_read_back(n, style):
    assert read_length(write_length(F(n, 10), "mm", style=style), "mm") == F(n, 10)


@steady
@given(st.integers(-3600, 3600))
def test_every_tenth_of_a_degree_is_written_and_read_back(n):
    assert read_angle(write_angle(F(n, 10))) == F(n, 10)


@steady
@given(st.fractions(-3900, 3900, max_denominator=10**6), st.sampled_from(["mm", "in"]))
def test_what_is_written_exactly_is_read_exactly(value, unit):
    assert read_length(write_exact(value, unit), unit) == value


def test_what_is_written_exactly_is_still_plain():
    mm, inches = ("20.5", "1.3", "146", "16/3", "-1/8"), ("91/16", "0.5", "5", "-7/3")
    assert "; ".join(write_exact(F(v), "mm") for v in mm) == "20.5; 1.3; 146; 5 1/3; -0.125"
    assert "; ".join(write_exact(F(v), "in") for v in inches) == "5 11/16; 1/2; 5; -2 1/3"


# Rounding


def test_a_rounded_length_says_grid_and_error():
    rounded = round_length(F(6472, 1000), "in", F(1, 16))
    assert rounded.value == F(13, 2)
    assert rounded.error == F(28, 1000)
    assert str(rounded) == "6 1/2 in (to 1/16 in: 0.028 over)"
    assert str(round_length(F(1536, 10), "mm", F(5))) == "155 mm (to 5 mm: 1.400 over)"
    assert str(round_length(F(1524, 10), "mm", F(1))) == "152 mm (to 1 mm: 0.400 under)"
    assert str(round_length(F(155), "mm", F(5))) == "155 mm exactly"


@pytest.mark.parametrize(
    ("value", "unit", "grid", "text"),
    [
        (F(1, 20), "mm", F(1, 20), "0.05 mm exactly"),
        (F(12341, 1000), "mm", F(1, 100), "12.34 mm (to 0.01 mm: 0.001 under)"),
        (F(3, 128), "in", F(1, 128), "3/128 in exactly"),
    ],
)
def test_a_rounded_length_on_a_fine_grid_is_not_rounded_again(value, unit, grid, text):
    assert str(round_length(value, unit, grid)) == text


@steady
@given(
    st.fractions(-1000, 1000, max_denominator=997),
    st.sampled_from([F(1), F(5), F(1, 10), F(1, 32), F(1905, 100)]),
)
def test_a_rounded_length_is_on_the_grid_and_no_further_off_than_half_a_step(value, grid):
    rounded = round_length(value, "mm", grid)
    assert (rounded.value / grid).denominator == 1
    assert rounded.value - rounded.error == value
    assert abs(rounded.error) <= grid / 2


@pytest.mark.parametrize("grid", [F(0), F(-1)])
def test_a_grid_is_above_0(grid):
    with pytest.raises(DesignError, match=f"The grid is {grid}; it must be more than 0"):
        round_length(12.0, "mm", grid)


# The guards behind these sentences


@pytest.mark.parametrize(
    "value", [float("nan"), float("inf"), np.array([1.0, np.nan]), "8", None, [1, 2], F(10) ** 400]
)
def test_what_is_not_finite_is_refused(value):
    with pytest.raises(DesignError, match=r"The height is .*; it must be an ordinary number"):
        require_finite("height", value)


@pytest.mark.parametrize("value", [0, -3, np.array([1.0, 0.0]), F(-1, 3)])
def test_what_is_not_above_0_is_refused_with_the_cure(value):
    with pytest.raises(DesignError, match="it must be more than 0: raise it"):
        require_positive("height", value, "raise it")


@pytest.mark.parametrize("value", [90, -90, 1e9, np.array([0.0, 90.0])])
def test_the_ends_of_an_open_range_are_outside_it(value):
    with pytest.raises(DesignError, match="must lie between -90 and 90: lean it less"):
        require_between("rake", value, -90, 90, "lean it less")


def test_sound_values_pass_every_guard():
    for value in (0.1, 89.9, np.array([1.0, 2.0]), F(1, 3)):
        assert require_finite("x", value) is None
        assert require_positive("x", value) is None
        assert require_between("x", value, 0, 90, "") is None


def test_a_misspelt_word_gets_the_nearest_or_all_of_them():
    assert nearest_word("hieght", ["height", "width"]) == "did you mean 'height'?"
    assert nearest_word("zzz", ["width", "height"]) == "what can stand there: height, width."


def test_a_fault_keeps_the_innermost_place_it_was_found_at():
    with (
        pytest.raises(DesignError, match="The step is -1") as fault,
        fault_at("rows"),
        fault_at("rows", "step"),
    ):
        require_positive("step", -1)
    assert fault.value.path == ("rows", "step")
    with fault_at("rows"):
        require_positive("step", 1)


def test_an_error_can_carry_further_sentences():
    assert DesignError("One.", ["Two.", "Three."]).more == ("Two.", "Three.")
    assert DesignError("One.").more == ()
