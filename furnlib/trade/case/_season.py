"""What slots and panels share: how narrow and how wide a part becomes between today, the dampest and the driest."""

from __future__ import annotations

from functools import reduce

import numpy as np

from furnlib.base.angles import Value
from furnlib.base.guards import DesignError, all_hold, require_between, require_positive


def largest(*values: Value) -> Value:
    """Largest of several numbers, or of arrays place by place."""
    most = reduce(np.maximum, values)
    return most if np.ndim(most) else float(most)


def narrowest_widest(stretch_damp: Value, stretch_dry: Value) -> tuple[Value, Value]:
    """Least and greatest size over today's size; today counts, for a shop may be damper or drier than the room."""
    require_positive("stretch to the dampest", stretch_damp, "1 is no change")
    require_positive("stretch to the driest", stretch_dry, "1 is no change")
    if not all_hold(np.asarray(stretch_damp) >= stretch_dry):
        raise DesignError(
            f"At the dampest the wood is {stretch_damp} of its size today, at the driest {stretch_dry}; the dampest"
            " must be the larger: change them over."
        )
    return 1.0 / largest(1.0, 1.0 / stretch_damp, 1.0 / stretch_dry), largest(1.0, stretch_damp, stretch_dry)


def require_none_or_more(**sizes: Value) -> None:
    """Refuse sizes below 0, each under the name that it is given by."""
    for name, size in sizes.items():
        require_between(name.replace("_", " "), size, 0, np.inf, "give 0 where there is none", ends=True)
