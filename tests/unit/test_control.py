"""The dimension control without a browser: what the hand sends in, what the page is told."""

from fractions import Fraction

import pytest
import traitlets

from furnlib.base.guards import DesignError
from furnlib.live.control import angle_control, count_control, length_control, number_control, set_together


@pytest.fixture
def front():
    """A drawer front of 5 11/16 in, from 3 to 9 in on sixteenths."""
    return length_control("Drawer front", "5 11/16", 3, 9, "1/16", "in")


def move(control, position):
    """Send what the page sends when the thumb comes to a position."""
    control.set_state({"asked": [control.answered + 1, position, None]})


def type_in(control, text):
    """Send what the page sends when a text is entered."""
    control.set_state({"asked": [control.answered + 1, None, text]})


def sent_back(control, monkeypatch):
    """Collect what the control tells the page, without the echo of what the page said itself."""
    told = []

    def send(msg, buffers=None):
        if msg["method"] == "update":
            told.append(msg["state"])

    monkeypatch.setattr(control, "_send", send)
    return told


def test_positions_are_the_grid_from_end_to_end(front):
    sixteenths = 6 * 16 + 1  # 3 to 9 in, both ends counted
    assert len(front.labels) == len(front.spoken) == sixteenths
    assert (front.labels[0], front.labels[1], front.labels[-1]) == ("3", "3 1/16", "9")
    assert front.spoken[43] == "5 11/16 in"  # 43/16 = 2 11/16 above 3
    assert (front.position, front.side) == (43, 0)


def test_positions_stand_on_the_shop_grid_also_between_odd_ends():
    control = length_control("Rail", 20, "10.4", "29.7", 5, "mm")
    assert control.labels == ["15", "20", "25"]


@pytest.mark.parametrize("position", [0, 1, 42, 43, 44, 96])
def test_moving_gives_the_exact_grid_value(front, position):
    move(front, position)
    assert front.value == 3 + Fraction(position, 16)
    assert isinstance(front.value, Fraction)


def test_a_move_is_answered_once_and_with_its_number(front, monkeypatch):
    told = sent_back(front, monkeypatch)
    front.set_state({"asked": [7, 44, None]})
    assert front.value == Fraction(92, 16)
    assert told == [{"answered": 7, "position": 44, "shown": "5 3/4", "said": "5 3/4 in"}]


def test_typed_on_the_grid(front):
    type_in(front, "5 5/8")
    assert front.value == Fraction(45, 8)
    assert (front.shown, front.said, front.message, front.invalid) == ("5 5/8", "5 5/8 in", "", False)
    assert front.position == 42  # 2 5/8 in = 42/16 above 3


def test_typed_another_way_is_shown_the_usual_way(front):
    type_in(front, "5.6875")
    assert (front.value, front.shown) == (Fraction(91, 16), "5 11/16")


def test_off_the_grid_is_kept_said_and_the_nearest_offered(front):
    type_in(front, "5 1/3")
    assert front.value == Fraction(16, 3)
    assert (front.shown, front.said) == ("5 1/3", "5 1/3 in")
    assert front.message == "5 1/3 is off the 1/16 in grid; nearest 5 5/16."
    assert front.position == 37  # 5 5/16 in; 5 1/3 lies 1/48 over it and 2/48 under 5 3/8
    assert (front.side, front.invalid) == (1, False)
    assert repr(front) == "<Control Drawer front: 5 1/3 in>"


def test_from_off_the_grid_back_to_the_thumbs_own_position(front):
    type_in(front, "5 1/3")
    move(front, 37)
    assert (front.value, front.side, front.message) == (Fraction(85, 16), 0, "")


def test_typed_in_another_unit_is_converted_and_said():
    width = length_control("Case width", 800, 300, 1200, 1, "mm")
    type_in(width, "20 in")  # 20 x 25.4 = 508
    assert (width.value, width.message) == (508, "20 in is 508 mm.")
    type_in(width, "20 3/8 in")  # 20.375 x 25.4 = 517.525
    assert width.value == Fraction("517.525")
    assert width.message == "20 3/8 in is 517.525 mm, off the 1 mm grid; nearest 518."
    type_in(width, "15 1/3 in")  # 46/3 x 25.4 = 389.4666...: exact in the value, rounded on the page
    assert width.value == Fraction(46, 3) * Fraction("25.4")
    assert width.shown == "389.4667"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("about six", "'about six' cannot be read as a length"),
        ("", "No length is written"),
        ("12", "Drawer front is 12 in; it must lie from 3 to 9 in"),
        ("1 m", "Drawer front is 1 m; it must lie from 3 to 9 in"),
    ],
)
def test_refused_text_stays_in_the_box_and_the_value_stays(front, text, said):
    type_in(front, text)
    assert front.value == Fraction(91, 16)
    assert (front.shown, front.said, front.position) == (text, "5 11/16 in", 43)
    assert front.message.startswith(said)
    assert front.message.endswith(".")
    assert ". " not in front.message  # one sentence
    assert front.invalid


def test_the_same_text_counts_again(front):
    for _ in range(2):
        type_in(front, "nonsense")
        assert front.invalid
        move(front, 0)
        assert (front.invalid, front.value) == (False, 3)


def test_set_value_tells_the_page_once_and_the_observer_once(front, monkeypatch):
    told, seen = sent_back(front, monkeypatch), []
    front.observe(lambda change: seen.append(change["new"]), "value")
    front.set_value(Fraction(16, 3))
    assert seen == [Fraction(16, 3)]
    assert len(told) == 1
    assert told[0]["position"] == 37
    front.set_value(Fraction(16, 3))
    assert len(seen) == len(told) == 1


def test_set_from_code_and_not_said(front, monkeypatch):
    type_in(front, "nonsense")
    told = sent_back(front, monkeypatch)
    front.set_value("5 1/3", quiet=True)
    assert (front.value, front.shown, front.said) == (Fraction(16, 3), "5 1/3", "5 1/3 in")
    assert (front.side, front.message, front.invalid) == (1, "", False)
    assert len(told) == 1
    type_in(front, "5 1/3")  # by the hand it is said
    assert front.message.startswith("5 1/3 is off the 1/16 in grid")


def test_set_together_is_all_or_none():
    rake, splay = angle_control("Rake", 8, -30, 30, "1/2"), angle_control("Splay", 6, -30, 30, "1/2")
    set_together({rake: 9.1234, splay: Fraction(37, 3)})
    assert (rake.value, splay.value) == (Fraction("9.1234"), Fraction(37, 3))
    assert (rake.message, splay.message) == ("", "")
    with pytest.raises(DesignError, match=r"Splay is 30\.5°; it must lie from -30 to 30°"):
        set_together({rake: 1, splay: 30.5})
    assert (rake.value, splay.value) == (Fraction("9.1234"), Fraction(37, 3))
    set_together({rake: -0.0, splay: 0.0001})
    assert (rake.shown, splay.shown) == ("0", "0.0001")


@pytest.mark.parametrize(
    ("text", "same"),
    [
        ("5 11/16", True),
        ("5.6875", True),
        (" 91/16 in ", True),
        ("144.4625 mm", True),
        ("5 5/8", False),
        ("5.688", False),
    ],
)
def test_a_text_means_the_value_or_not(front, text, same):
    """5 11/16 in is 5.6875 in, and 5.6875 x 25.4 = 144.4625 mm."""
    assert front.means(text) is same


def test_a_text_that_means_nothing_is_refused(front):
    with pytest.raises(DesignError, match="cannot be read as a length"):
        front.means("about six")


def test_the_observer_sees_the_control_whole(front):
    seen = []
    front.observe(lambda _: seen.append((front.value, front.position, front.shown, repr(front))), "value")
    move(front, 0)
    type_in(front, "9")
    assert seen == [(3, 0, "3", "<Control Drawer front: 3 in>"), (9, 96, "9", "<Control Drawer front: 9 in>")]


def test_an_observer_that_fails_is_not_blamed_on_the_text(front):
    def draw(change):
        raise DesignError("The shape cannot be made.")

    front.observe(draw, "value")
    with pytest.raises(DesignError, match="shape"):
        front.set_value(6)
    with pytest.raises(DesignError, match="shape"):
        type_in(front, "7")
    assert (front.value, front.shown, front.message, front.invalid) == (7, "7", "", False)


def test_value_is_not_assigned(front):
    with pytest.raises(traitlets.TraitError):
        front.value = 7


def test_angle():
    rake = angle_control("Rake", 8, -1, 30, 0.5)
    assert repr(rake) == "<Control Rake: 8°>"
    assert (rake.said, rake.unit, rake.labels[:3]) == ("8 degrees", "°", ["-1", "-0.5", "0"])
    assert rake.spoken[4] == "1 degree"
    type_in(rake, "7.25°")
    assert rake.value == Fraction(29, 4)
    assert rake.message == "7.25° is off the 0.5° grid; nearest 7."  # halfway: the even step, 14 x 0.5
    type_in(rake, "31")
    assert rake.message == "Rake is 31°; it must lie from -1 to 30°: give a value between them."


def test_number_takes_a_decimal_as_it_is_written():
    ratio = number_control("Ratio", 1.1, 1, 1.5, 0.01)
    assert ratio.value == Fraction(11, 10)
    assert (ratio.said, len(ratio.labels)) == ("1.1", 51)
    type_in(ratio, "9/8")
    assert (ratio.value, ratio.shown) == (Fraction(9, 8), "1.125")


def test_count_is_an_int():
    drawers = count_control("Drawers", 7, 2, 12)
    move(drawers, 1)
    assert (drawers.value, type(drawers.value)) == (3, int)
    type_in(drawers, "3.5")
    assert (drawers.value, drawers.message) == (3, "'3.5' is not a whole number; write it like 7.")


@pytest.mark.parametrize(
    ("make", "part"),
    [
        (lambda: angle_control("Rake", 8, 30, 30, 1), "below the high end"),
        (lambda: angle_control("Rake", 8, 0, 30, 0), "must be more than 0"),
        (lambda: angle_control("Rake", 8, 0, 30, -1), "must be more than 0"),
        (lambda: angle_control("Rake", 40, 0, 30, 1), "Rake is 40°; it must lie from 0 to 30°"),
        (lambda: length_control("Width", 8, 0, 2000, 1, "mm"), "has 2001 positions"),
        (lambda: length_control("Width", 8, 7, 9, 5, "mm"), "has 0 positions"),
        (lambda: length_control("Width", float("nan"), 7, 9, 1, "mm"), "cannot be read as a length"),
        (lambda: count_control("Drawers", 2.5, 2, 9), "not a whole number"),
    ],
)
def test_nonsense_is_refused_in_one_sentence(make, part):
    with pytest.raises(DesignError, match=part) as refusal:
        make()
    assert str(refusal.value).endswith(".")


def test_two_thousand_positions_are_allowed():
    assert len(length_control("Width", 8, 1, 2000, 1, "mm").labels) == 2000


def test_every_label_reads_back_as_its_own_position():
    for grid in ("1/16", "1/32", "1/64", "1/10", "1/3"):
        control = length_control("Part", 1, 0, 2, grid, "in")
        for position, label in enumerate(control.labels):
            type_in(control, label)
            assert (control.value, control.side) == (position * Fraction(grid), 0)
