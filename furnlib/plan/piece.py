"""A piece, computed once and whole: the steps in order, and nothing else."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from furnlib.base.guards import DesignError
from furnlib.plan.design import Design, design_of
from furnlib.plan.design_text import DesignText, spoken_path
from furnlib.plan.sizes.case import CaseSizes, case_sizes
from furnlib.plan.sizes.legs import LegSizes, leg_concerns, leg_rules, leg_sizes
from furnlib.plan.sizes.masters import master_sizes
from furnlib.plan.sizes.openings import RowSizes, row_sizes
from furnlib.plan.sizes.size import Chain, Concern, Size


@dataclass(frozen=True, eq=False)
class Piece:
    """Everything that follows from one design; drawing, checking and recording only read it.

    Args:
        design: the master sizes.
        case: the case's sizes.
        rows: the openings.
        legs: the legs, none where the piece has none.
        masters: what the maker settled.
        sizes: every derived size with its rule.
        chains: every chain, closed.
        concerns: what to settle before wood is cut.
    """

    design: Design
    case: CaseSizes
    rows: RowSizes
    legs: tuple[LegSizes, ...]
    masters: tuple[Size, ...]
    sizes: tuple[Size, ...]
    chains: tuple[Chain, ...]
    concerns: tuple[Concern, ...]

    def __repr__(self) -> str:
        return f"<Piece '{self.design.piece}', revision {self.design.revision}, {self.design.digest}>"


def make_piece(design: Design) -> Piece:
    """Compute a piece from its design.

    Args:
        design: the master sizes.

    Returns:
        The piece.

    Raises:
        DesignError: when the sizes do not close or a part cannot be made.

    Example:
        >>> from furnlib.plan.design import read_design
        >>> chest = make_piece(read_design("notebooks/designs/landing_chest.yaml"))
        >>> print(chest.chains[2])
        20 + 1001 + 108 + 20 = 1149
    """
    case = case_sizes(design)
    rows = row_sizes(design, case)
    legs = leg_sizes(design)
    return Piece(
        design=design,
        case=case,
        rows=rows,
        legs=legs,
        masters=master_sizes(design),
        sizes=(*case.sizes, *rows.sizes, *leg_rules(design, legs)),
        chains=(*rows.chains, *case.chains),
        concerns=(*rows.concerns, *leg_concerns(design, legs)),
    )


def piece_of(text: DesignText) -> Piece:
    """Compute a piece from the text of its design file, so that faults name their line.

    Args:
        text: the file as it was written.

    Returns:
        The piece.

    Raises:
        DesignError: naming file, line, path and cure.
    """
    try:
        return make_piece(design_of(text))
    except DesignError as error:
        if not error.path:
            raise
        line = text.line_of(error.path)
        raise DesignError(f"{text.name} line {line}, {spoken_path(error.path)}: {error}") from error


def read_piece(path: str | Path) -> Piece:
    """Read a design file and compute its piece.

    Args:
        path: a YAML file.

    Returns:
        The piece.

    Raises:
        DesignError: naming file, line, path and cure.

    Example:
        >>> read_piece("notebooks/designs/landing_chest.yaml").rows.rule
        'constant step of 20'
    """
    return piece_of(DesignText.read(path))
