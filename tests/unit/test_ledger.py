"""The ledger of proofs: no number on a plate or behind a size stands on a formula that is not proved."""

from pathlib import Path

import pytest

from furnlib.draw.plates import plates_of
from furnlib.plan.piece import read_piece
from furnlib.teach import derive

ROOT = Path(__file__).parents[2]
DESIGNS = sorted((ROOT / "notebooks" / "designs").glob("*.yaml"))
DERIVATIONS = {name: getattr(derive, name)() for name in derive.__all__}
CLAIMS = [claim for derivation in DERIVATIONS.values() for claim in derivation.claims]
WITHOUT_A_CLAIM = {
    "lean.foot_run": "height times a tangent: what the tangent of a lean is",
    "turning.volume": "the sum over a profile of turning.line_volume and turning.arc_volume",
    "whirling.slenderness": "a length over a diameter: what slenderness means",
    "blank.spares": "chances of good legs counted up; stands on every way they can come out (test_blank.py)",
    "graduation.rule": "names the rule of a design; its formulas are graduation.step, .ratio and .weights",
    "graduation.closing": "a search; stands on every valid set of small cases (test_closing.py)",
    "closing.pitch": "a search; stands on every set of whole pitches of small cases (test_pitch.py)",
}


def is_proved(key):
    """A key is that of a claim, or of a family of claims: fixing.wall is fixing.wall_front and the others."""
    return any(claim.key == key or claim.key.startswith(key) for claim in CLAIMS)


def keys_in_use(designs):
    for path in designs:
        piece = read_piece(path)
        yield from ((size.formula, f"{path.stem}: {size.name}") for size in piece.sizes if size.formula)
        yield from ((key, f"{path.stem}: {plate.name}") for plate in plates_of(piece) for key in plate.formulas)


@pytest.mark.parametrize("twins", [False, pytest.param(True, marks=pytest.mark.slow)])
def test_every_formula_in_use_is_proved_or_says_why_not(twins):
    """An inch twin goes by the formulas of its metric piece, and is asked too in CI."""
    used = dict(keys_in_use(path for path in DESIGNS if twins or not path.stem.endswith("_inch")))
    unproved = {key: where for key, where in used.items() if key not in WITHOUT_A_CLAIM and not is_proved(key)}
    assert not unproved
    assert set(used) >= set(WITHOUT_A_CLAIM)


def test_no_key_is_claimed_twice():
    keys = [claim.key for claim in CLAIMS]
    assert len(keys) == len(set(keys))


def test_every_claim_is_proved_in_symbols_and_none_only_at_points():
    assert [claim.key for claim in CLAIMS if claim.by_points] == []
    assert {claim.proof for claim in CLAIMS} == {"in symbols"}


@pytest.mark.parametrize("name", DERIVATIONS)
def test_every_derivation_stands_in_the_ledger(name):
    ledger = (ROOT / "DEVELOPERS.md").read_text("utf-8").partition("## Trust")[2].partition("\n## ")[0]
    assert f"`{name}`" in ledger


def test_a_claim_tried_at_points_says_so_and_catches_a_wrong_formula():
    import sympy

    from furnlib.teach.proof import RHO, SIGMA, Claim, Derivation

    angle = RHO + SIGMA
    wanted = sympy.sin(RHO) * sympy.cos(SIGMA) + sympy.cos(RHO) * sympy.sin(SIGMA)
    right = Claim("a", "Added.", "s", sympy.sin(angle), wanted, "From the sum,", by_points=True)
    wrong = Claim(
        "b", "Added.", "s", sympy.sin(angle), wanted + sympy.Rational(1, 10**40), "From the sum,", by_points=True
    )
    assert right.difference == 0
    assert wrong.difference == pytest.approx(1e-40)
    assert "at 50 rational points, 50 digits" in Derivation("Sum", (), (right,))._repr_markdown_()
