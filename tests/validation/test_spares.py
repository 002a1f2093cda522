"""Chance that enough legs come good.

Source: the binomial distribution of scipy, ``scipy.stats.binom``; its survival function counts more
than k, so at least n is more than n - 1. For the shop's own example, 9 good ones in 10 and five wanted:
six give 89 % and seven 97 % (common practice, no source).
"""

from __future__ import annotations

import pytest
from scipy.stats import binom

from furnlib.trade.leg.blank import chance_of_enough, legs_to_make


@pytest.mark.parametrize("good", [0.05, 0.5, 0.75, 0.9, 0.99, 1.0])
@pytest.mark.parametrize("made", [1, 5, 12, 60, 200])
def test_the_tail_is_that_of_scipy(made, good):
    for needed in {1, made // 2 + 1, made}:
        assert chance_of_enough(made, needed, good) == pytest.approx(binom.sf(needed - 1, made, good), rel=1e-10)


@pytest.mark.parametrize("needed", [1, 4, 5, 12])
@pytest.mark.parametrize("certainty", [0.5, 0.9, 0.95, 0.99])
def test_the_least_number_is_the_first_that_scipy_lets_pass(needed, certainty):
    first = next(made for made in range(needed, 100) if binom.sf(needed - 1, made, 0.8) >= certainty)
    assert legs_to_make(needed, 0.8, certainty) == first


def test_the_example_of_the_shop():
    assert [round(100 * chance_of_enough(made, 5, 0.9)) for made in (6, 7)] == [89, 97]
