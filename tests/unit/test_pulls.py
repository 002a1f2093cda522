"""Pull lines carried across rows, and the holes of each front from its left and lower edges."""

from fractions import Fraction

import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.teach.derive.pulls import derive_pulls
from furnlib.trade.drawer.pulls import Pull, centre_line, drilling_pattern, hole_across, pull_lines

steady = settings(deadline=None, derandomize=True, max_examples=25)
KNOB = Pull(base=Fraction(25), thread=Fraction(12), hole_diameter=Fraction(5))
BAR = Pull(base=Fraction(10), thread=Fraction(8), hole_diameter=Fraction(5), hole_spacing=Fraction(96))
WHOLE, HALF_ROWS = (Fraction(1), Fraction(478)), ((Fraction(1), Fraction(229)), (Fraction(250), Fraction(229)))


def landing_chest_lines():
    """Row 1 of the landing chest is 231 + 18 + 231; its middles are carried down."""
    return tuple(centre_line(Fraction(left), Fraction(231)) for left in (0, 231 + 18))


def drilled(front, height=100, pull=KNOB, lines=None, raised=Fraction(0)):
    left, width = front
    lines = landing_chest_lines() if lines is None else lines
    return drilling_pattern("front", left, width, Fraction(height), Fraction(20), lines, pull, raised)


def test_the_split_row_carried_down_in_both_shops():
    assert landing_chest_lines() == (Fraction(231, 2), Fraction(729, 2))  # 115.5 and 364.5
    width, partition = Fraction(71, 8), Fraction(3, 4)
    inch = tuple(centre_line(left, width) for left in (Fraction(0), width + partition))
    assert inch == (4 + Fraction(7, 16), 14 + Fraction(1, 16))


def test_every_row_is_drilled_on_the_same_lines():
    """Fronts 1 inside their openings: 115.5 and 364.5 less 1; in the right-hand front 364.5 - 250."""
    left, right = (drilled(front, height=80) for front in HALF_ROWS)
    lower = drilled(WHOLE, height=120)
    assert (left.from_left, right.from_left) == ((114.5,), (114.5,))
    assert lower.from_left == (114.5, 363.5)
    assert (left.from_lower, lower.from_lower) == (40, 60)
    assert (left.off_middle, right.off_middle, lower.off_middle) == ((0,), (0,), (124.5, 124.5))
    # a foot of 25 on a front 80 high leaves 40 - 12.5
    assert (left.edge_room, left.screw_length, left.hole_diameter) == (27.5, 32, 5)
    numbers = (*lower.from_left, lower.from_lower, *lower.lines, lower.edge_room, lower.screw_length)
    assert {type(number) for number in numbers} == {Fraction}


def test_a_bar_handle_has_two_holes_about_its_line():
    made = drilled(WHOLE, pull=BAR)
    assert made.from_left == (114.5 - 48, 114.5 + 48, 363.5 - 48, 363.5 + 48)
    assert made.lines == (114.5, 363.5)
    assert made.screw_length == 28
    assert made.edge_room == 50 - 5  # up and down is nearer than 66.5 to the side


def test_a_raised_pull_stands_higher_by_a_share_of_its_front():
    assert [drilled(WHOLE, height, raised=Fraction(1, 20)).from_lower for height in (80, 200)] == [44, 110]
    assert drilled(WHOLE, 200, raised=Fraction(1, 20)).edge_room == 90 - 12.5  # now nearest to the upper edge


def test_a_foot_over_the_edge_is_a_number_below_0():
    knob = Pull(base=50, thread=12, hole_diameter=5)
    assert drilled(WHOLE, height=40, pull=knob).edge_room == -5


@pytest.mark.parametrize(
    ("rule", "lines"),
    [
        ("middle", (240,)),
        ("thirds", (160, 320)),
        ("quarters", (120, 360)),
        ((100, -100), (100, 380)),
        ((-100, 100, 240), (100, 240, 380)),
        ((240, -240), (240,)),
        ((Fraction(1, 3),), (Fraction(1, 3),)),
    ],
)
def test_lines_by_word_or_by_distance(rule, lines):
    assert pull_lines(Fraction(480), rule) == lines


@steady
@given(st.fractions(1, 2000, max_denominator=64), st.sampled_from(["middle", "thirds", "quarters"]))
def test_lines_by_word_lie_alike_to_both_sides(width, rule):
    lines = pull_lines(width, rule)
    assert tuple(width - line for line in reversed(lines)) == lines
    part = {"middle": 2, "thirds": 3, "quarters": 4}[rule]
    assert lines[0] * part == width


@steady
@given(
    st.fractions(-20, 300, max_denominator=32),
    st.fractions(30, 900, max_denominator=32),
    st.fractions(0, 20, max_denominator=32),
    st.lists(st.integers(1, 999), min_size=1, max_size=3, unique=True),
)
def test_holes_stand_on_the_lines_of_the_case(left, width, spacing, lines):
    """Each hole measured again from the case's side, beside the lines as they were given."""
    pull = Pull(base=Fraction(2), thread=9, hole_diameter=1, hole_spacing=spacing)
    crossing = [Fraction(line) for line in sorted(lines) if left < line < left + width]
    ends = [line + side * spacing / 2 for line in crossing for side in (-1, 1)]
    clear = all(left + Fraction(1, 2) < end < left + width - Fraction(1, 2) for end in ends)
    if not crossing or not clear:
        with pytest.raises(DesignError, match=r"No pull line crosses|breaks out"):
            drilling_pattern("front", left, width, Fraction(60), 20, sorted(lines), pull)
        return
    made = drilling_pattern("front", left, width, Fraction(60), 20, sorted(lines), pull)
    in_case = [left + hole for hole in made.from_left]
    assert in_case == (ends if spacing else crossing)
    nearest = min(30, *(end - left for end in ends), *(left + width - end for end in ends))
    assert made.edge_room == nearest - 1
    assert made.off_middle == tuple(abs(line - (left + width / 2)) for line in crossing)


def test_pulls_that_cannot_be_are_refused_with_a_cure():
    with pytest.raises(DesignError, match=r"runs from 1 to 230: the lines stand at 240, 300\.5; give it a line"):
        drilled(HALF_ROWS[0], lines=(240, 300.5))
    with pytest.raises(DesignError, match="the lines stand at no place"):
        drilled(WHOLE, lines=())
    # its hole of 5 reaches 2.5 either way from 1.5 inside the left edge
    with pytest.raises(DesignError, match=r"5 wide, has its centre 1\.5 inside the edge and breaks out; move the pull"):
        drilled(WHOLE, lines=(2.5,))
    with pytest.raises(DesignError, match=r"centre -13 inside the edge"):
        drilled(WHOLE, pull=BAR, lines=(36,))  # the bar's left hole lies outside the front
    with pytest.raises(DesignError, match=r"The share by which a pull is raised is 0\.5"):
        drilled(WHOLE, raised=0.5)
    with pytest.raises(DesignError, match="breaks out"):
        drilled(WHOLE, raised=0.49)
    with pytest.raises(DesignError, match="The width of front is 0"):
        drilled((1, 0))


@pytest.mark.parametrize("rule", [(), (0,), (480,), (-480,), (500,), (100, -500)])
def test_lines_beside_the_case_are_refused(rule):
    with pytest.raises(DesignError, match="do not all fall inside a width of 480"):
        pull_lines(480, rule)


def test_a_word_that_is_not_known_is_answered():
    with pytest.raises(DesignError, match="did you mean 'thirds'"):
        pull_lines(480, "third")
    with pytest.raises(DesignError, match="The width is 0"):
        pull_lines(0, "thirds")
    with pytest.raises(DesignError, match="nan; it must be an ordinary number"):
        pull_lines(480, (float("nan"),))


@pytest.mark.parametrize("name", ["base", "thread", "hole_diameter", "hole_spacing"])
def test_a_pull_has_sizes(name):
    with pytest.raises(DesignError, match=name.replace("_", " ")):
        Pull(**{"base": 25, "thread": 12, "hole_diameter": 5, "hole_spacing": 0, name: -1})


@pytest.mark.parametrize("claim", derive_pulls().claims, ids=lambda claim: claim.key)
def test_each_claim_is_proved_and_about_the_holes_that_are_drilled(claim):
    assert claim.difference == sympy.Integer(0)
    values = {"a": 249, "w": 231, "x": 364.5, "e": 250, "s": 96}
    expression = claim.derived.subs({sympy.Symbol(name, positive=True): value for name, value in values.items()})
    expected = {
        "pulls.line": {centre_line(249, 231), landing_chest_lines()[1]},
        "pulls.hole": {hole_across(364.5, 250, 96, 1), float(drilled(HALF_ROWS[1], pull=BAR).from_left[1])},
    }[claim.key]
    assert expected == {float(expression)}
