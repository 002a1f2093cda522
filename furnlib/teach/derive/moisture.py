"""Wood in air: water dissolved in it, and water held in two layers, each in balance with the others."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.wood.moisture import settled_moisture

_AIR, _WEIGHT, _K, _K1, _K2 = sp.symbols("h W K K_1 K_2", positive=True)
_DRY, _DISSOLVED = sp.symbols("n_0 n", positive=True)


def derive_moisture() -> Derivation:
    """Derive the moisture content at which wood settles, from three balances.

    Returns:
        The derivation, in relative humidity h as a share, weight W of wood for one place that holds water,
        and the three constants K, K_1, K_2.

    Example:
        >>> derive_moisture()["moisture.balance"].difference
        0
    """
    one = _K1 * _DISSOLVED * _DRY
    two = _K2 * _DISSOLVED * one
    (dry,) = sp.solve(_DISSOLVED + _DRY + one + two - 1, _DRY)
    water, wood = _DISSOLVED + one + 2 * two, _DRY + one + two
    moisture = 100 * 18 * water / (_WEIGHT * wood)
    return Derivation(
        "Wood settles in air",
        (
            (
                "Of all that is in the wood, as shares by number: n is water dissolved, and n rises with the humidity;"
                " dry places, places with one molecule of water and places with two are in balance with it.",
                r"n = K h, \qquad n_1 = K_1\, n\, n_0, \qquad n_2 = K_2\, n\, n_1, \qquad n + n_0 + n_1 + n_2 = 1",
            ),
            (
                "A place weighs W, a molecule of water 18; moisture content is the weight of all water in per cent of"
                " the weight of all places.",
                r"M = 100\,\frac{18\,(n + n_1 + 2 n_2)}{W\,(n_0 + n_1 + n_2)}",
            ),
        ),
        (
            Claim(
                "moisture.balance",
                "Wood settles at this moisture content.",
                "M",
                settled_moisture(_AIR, _WEIGHT, _K, _K1, _K2),
                moisture.subs(_DRY, dry).subs(_DISSOLVED, _K * _AIR),
                "With the dry places from their sum,",
            ),
        ),
    )
