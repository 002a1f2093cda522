"""A piece, computed once and whole: the steps in order, and nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from furnlib.base.concern import Concern
from furnlib.base.guards import DesignError
from furnlib.plan.design import CaseDesign, Design, SeatDesign, design_of
from furnlib.plan.design_text import DesignText, spoken_path
from furnlib.plan.sizes.back import BackSizes, back_sizes
from furnlib.plan.sizes.banks import Bank, bank_sizes, left_for_legs
from furnlib.plan.sizes.brief import BriefSizes, brief_sizes
from furnlib.plan.sizes.case import CaseSizes, case_sizes
from furnlib.plan.sizes.drawer_concerns import drawer_concerns
from furnlib.plan.sizes.drawers import DrawerSizes, drawers_of
from furnlib.plan.sizes.finish import FinishSizes, finish_sizes
from furnlib.plan.sizes.front_runs import FrontRun, front_runs
from furnlib.plan.sizes.leg_concerns import leg_concerns
from furnlib.plan.sizes.leg_rules import leg_rules
from furnlib.plan.sizes.legs import LegSizes, leg_sizes
from furnlib.plan.sizes.masters import master_sizes
from furnlib.plan.sizes.mortises import require_mortises_apart
from furnlib.plan.sizes.opening_concerns import opening_concerns
from furnlib.plan.sizes.openings import RowSizes
from furnlib.plan.sizes.season import Season, season_of
from furnlib.plan.sizes.size import Chain, Size
from furnlib.plan.sizes.slotted_strip import StripSizes, strip_sizes
from furnlib.plan.sizes.stand import Stand, case_stand, seat_stand


@dataclass(frozen=True, eq=False)
class Piece:
    """Everything that follows from one design; drawing, checking and recording only read it.

    Args:
        design: the master sizes.
        stand: what the legs stand under, None where the piece has no legs.
        legs: the legs, none where the piece has none.
        chains: every chain, closed.
        concerns: what to settle before wood is cut.
    """

    design: Design
    stand: Stand | None
    legs: tuple[LegSizes, ...]
    chains: tuple[Chain, ...]
    concerns: tuple[Concern, ...]
    _leg_rules: tuple[Size, ...]

    @cached_property
    def masters(self) -> tuple[Size, ...]:
        """What the maker settled; listed where it is read, for no move of a slider asks."""
        return master_sizes(self.design)

    @cached_property
    def sizes(self) -> tuple[Size, ...]:
        """Every derived size with its rule; listed where it is read."""
        return (*self._on_legs, *(self.stand.sizes if self.stand else ()), *self._leg_rules)

    @property
    def _on_legs(self) -> Iterable[Size]:
        """The sizes of what stands on the legs."""
        return ()

    def __repr__(self) -> str:
        return f"<Piece '{self.design.piece}', revision {self.design.revision}, {self.design.digest}>"


@dataclass(frozen=True, eq=False, repr=False)
class CasePiece(Piece):
    """A case with drawers.

    Args:
        design: the master sizes.
        case: the case's sizes.
        banks: the bays from the left, each with its openings or open.
        brief: what the brief asks of it, None where the design has none.
        season: the year of its wood, None where the design says nothing of it.
        drawers: of every row with drawers, from the left bank down; none where the design does not say how they
            are made.
        back: what closes the case behind, None where the design does not say.
        strip: slots for screws across the grain of the case's sides, None where the design has none.
        runs: fronts laid out on their boards, none where the design has no grain to carry on.
        finish: what there is to finish and to break, None where the design has no finish.
    """

    design: CaseDesign
    case: CaseSizes
    banks: tuple[Bank, ...]
    brief: BriefSizes | None
    season: Season | None
    drawers: tuple[DrawerSizes, ...]
    back: BackSizes | None
    strip: StripSizes | None
    runs: tuple[FrontRun, ...]
    finish: FinishSizes | None

    @property
    def rows(self) -> RowSizes:
        """The openings of the first bank with drawers."""
        return next(bank.rows for bank in self.banks if bank.rows)

    @property
    def _on_legs(self) -> Iterator[Size]:
        yield from self.case.sizes
        # those of drawers that are alike, and heights that a jig settled, stand in several places under one name
        of_banks = (bank.rows.sizes for bank in self.banks if bank.rows)
        several = (*of_banks, *(drawer.sizes for drawer in self.drawers))
        yield from {size.name: size for sizes in several for size in sizes}.values()
        for part in (self.brief, self.season, self.back, self.strip, self.finish):
            yield from part.sizes if part else ()


@dataclass(frozen=True, eq=False, repr=False)
class SeatPiece(Piece):
    """A seat on legs.

    Args:
        design: the master sizes.
        stand: its underside.
    """

    design: SeatDesign
    stand: Stand


def case_of(piece: Piece) -> CasePiece:
    """Take a piece for a case with drawers.

    Args:
        piece: a finished piece.

    Returns:
        The same piece.

    Raises:
        DesignError: when it is none.
    """
    if not isinstance(piece, CasePiece):
        raise DesignError(f"{piece.design.piece} has no case and no drawers; ask this of a chest.")
    return piece


def make_piece(design: Design) -> Piece:
    """Compute a piece from its design.

    Args:
        design: the master sizes.

    Returns:
        The piece: a `CasePiece`, or a `SeatPiece` where the design has a seat.

    Raises:
        DesignError: when the sizes do not close or a part cannot be made.

    Example:
        >>> from furnlib.plan.design import read_design
        >>> chest = make_piece(read_design("notebooks/designs/landing_chest.yaml"))
        >>> print(chest.chains[2])
        20 + 1001 + 108 + 20 = 1149
    """
    if isinstance(design, SeatDesign):
        return _seat_piece(design)
    assert isinstance(design, CaseDesign)
    return _case_piece(design)


def _case_piece(design: CaseDesign) -> CasePiece:
    case = case_sizes(design)
    to_legs = left_for_legs(design, case)
    case = case_sizes(design, to_legs) if to_legs else case
    bays = bank_sizes(design, case)
    season = season_of(design)
    drawers = drawers_of(design, bays.banks, season)
    brief = brief_sizes(design, bays.banks, drawers)
    back, strip = back_sizes(design, case, season), strip_sizes(design, season)
    finish = finish_sizes(design, case, bays.banks, drawers)
    stand = case_stand(design, case) if design.legs else None
    legs = leg_sizes(design, stand)
    return CasePiece(
        design=design,
        stand=stand,
        case=case,
        banks=bays.banks,
        brief=brief,
        season=season,
        drawers=drawers,
        back=back,
        strip=strip,
        runs=front_runs(design, bays.banks, drawers),
        finish=finish,
        legs=legs,
        chains=(*bays.chains, *case.chains),
        concerns=(
            *opening_concerns(design, bays.banks),
            *(brief.concerns if brief else ()),
            *(season.concerns if season else ()),
            *drawer_concerns(design, season, drawers),
            *(back.concerns if back else ()),
            *(finish.concerns if finish else ()),
            *leg_concerns(design, stand, legs),
        ),
        _leg_rules=leg_rules(design, legs),
    )


def _seat_piece(design: SeatDesign) -> SeatPiece:
    stand = seat_stand(design)
    legs = leg_sizes(design, stand)
    require_mortises_apart(design, stand, legs)
    return SeatPiece(
        design=design,
        stand=stand,
        legs=legs,
        chains=stand.chains,
        concerns=leg_concerns(design, stand, legs),
        _leg_rules=leg_rules(design, legs),
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
