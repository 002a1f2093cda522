"""Slips of a chain: their sum at worst, their spread by the rule for independent errors."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.drawer.error_budget import likely_slip, worst_slip


def derive_error_budget() -> Derivation:
    """Derive what alike slips of a chain add up to, at worst and as a rule.

    Returns:
        The derivation, in slip e of each member and number of members n.

    Example:
        >>> derive_error_budget()["error_budget.likely"].difference
        0
    """
    slip, members, shared = sp.symbols("e n c", positive=True)
    row = sp.Symbol("i", integer=True)
    own = sp.summation(slip**2, (row, 1, members))
    pairs = members * (members - 1) * shared
    as_one = sp.sqrt(sp.factor((own + pairs).subs(shared, slip**2)))
    return Derivation(
        "What slips add up to along a chain",
        (
            (
                "Each member is marked from the end of the one before, so the end of the chain is off by the sum of all"
                " slips. At worst they all go one way,",
                r"e_1 + e_2 + \dots + e_n \le n\,e",
            ),
            (
                "as a rule they do not. The mean square of the sum holds every slip with every other; one with itself"
                " gives e squared, and any other pair the same c,",
                rf"\overline{{\left(\textstyle\sum e_i\right)^2}} = {sp.latex(own + pairs)}",
            ),
            (
                "Slips that know nothing of one another have c = 0. One setting that all members share has c = e"
                " squared, and then as a rule is as bad as at worst:",
                rf"\sqrt{{{sp.latex(own + pairs)}}} = {sp.latex(as_one)}",
            ),
        ),
        (
            Claim(
                "error_budget.worst",
                "At worst: every slip to one side.",
                "E",
                worst_slip(slip, members),
                sp.summation(slip, (row, 1, members)),
                "Adding n of them,",
            ),
            Claim(
                "error_budget.likely",
                "As a rule: the root of their mean square.",
                "E",
                likely_slip(slip, members),
                sp.sqrt((own + pairs).subs(shared, 0)),
                "With c = 0 only the n products of one with itself are left; the root of their sum,",
            ),
        ),
    )
