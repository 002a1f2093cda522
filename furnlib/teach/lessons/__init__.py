"""The exercises of the lessons, by key; each stands on the library's own functions."""

from __future__ import annotations

from furnlib.base.guards import DesignError, nearest_word
from furnlib.teach.exercise import Exercise
from furnlib.teach.lessons import drawer, graduation, movement, proportion, splay, turning

_BANK = (
    *proportion.EXERCISES,
    *graduation.EXERCISES,
    *drawer.EXERCISES,
    *movement.EXERCISES,
    *splay.EXERCISES,
    *turning.EXERCISES,
)
_BY_KEY = {exercise.key: exercise for exercise in _BANK}


def exercise(key: str) -> Exercise:
    """Find an exercise of the lessons by its key.

    Args:
        key: the notebook's number and a letter, such as "05a".

    Returns:
        The exercise; ask it to ``check`` an answer.

    Raises:
        DesignError: when there is no such exercise.

    Example:
        >>> exercise("05a").check("21, 36.7").words
        'That is the answer you get when the two angles are added.'
    """
    if key not in _BY_KEY:
        raise DesignError(f"There is no exercise '{key}'; {nearest_word(key, _BY_KEY)}")
    return _BY_KEY[key]


def all_exercises() -> tuple[Exercise, ...]:
    """Every exercise of the lessons, in order.

    Returns:
        The exercises.

    Example:
        >>> [exercise.key for exercise in all_exercises()][:4]
        ['01a', '01b', '01c', '01d']
    """
    return _BANK
