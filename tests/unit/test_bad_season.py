"""A fault in what a design file says of the season and the wood, and names of the drawers' part that are amiss.

Each row of the tables is one slip of a maker: what stands in place of what, the path and what the sentence
must say; where the line is not that of the slip, its words.
"""

from __future__ import annotations

import pytest
from chest_of_drawers import ABOVE, CASE, CLIMATE, DRAWERS, NO_NUMBER, SOUND, hear, slips
from faults import STOOL, check_sentence, edited, faults, line_of

# Season and wood


OWN = (
    "rings: flat-sawn\n    like: black cherry\n    measured: [{{before: {}, after: {}, moisture before: 8, {}}}]".format
)
REFUSED = "it must lie from 0 to 30: above 30 % the wood does not move"
SEASONS = [
    ("shop: wet", "shop: 8", "climate, shop, moisture", f"'wet' {NO_NUMBER}"),
    ("shop: nan", "shop: 8", "climate, shop, moisture", f"'nan' {NO_NUMBER}"),
    ("shop: [8]", "shop: 8", "climate, shop", "names and values should stand below this"),
    ("wnter: 7\n  dry: 7", "dry: 7", "climate", "there is no 'wnter' here; what can stand there", "wnter"),
    # above fibre saturation, below nothing
    ("shop: 31", "shop: 8", "climate, shop", f"is 31.0; {REFUSED}"),
    ("shop: -1", "shop: 8", "climate, shop", f"is -1.0; {REFUSED}"),
    ("damp: 35", "damp: 12", "climate, damp", f"is 35.0; {REFUSED}"),
    ("dry: -2", "dry: 7", "climate, dry", f"is -2.0; {REFUSED}"),
    # the wrong way round
    ("damp: 6", "damp: 12", "climate, damp", "The dampest is 6 % and the driest 7 %; change the two round"),
    ("dry: 13", "dry: 7", "climate, damp", "The dampest is 12 % and the driest 13 %; change the two round", "damp: 12"),
    (
        "dry: {temperature: 20, humidity: 80}", "dry: 7", "climate, damp",
        "The dampest is 12 % and the driest 16.0", "damp: 12",
    ),
    # air and moisture
    ("shop: {moisture: 8, humidity: 40}", "shop: 8", "climate, shop", "Moisture and air are given at once; keep the"),
    ("shop: {temperature: 21}", "shop: 8", "climate, shop", "or both temperature and humidity of the air"),
    ("shop: {humidity: 40}", "shop: 8", "climate, shop", "Give the wood's moisture, as 'shop: 8', or both"),
    ("shop: {}", "shop: 8", "climate, shop", "Give the wood's moisture, as 'shop: 8', or both"),
    ("shop: {temprature: 21, humidity: 45}", "shop: 8", "climate, shop", "no 'temprature' here; did you mean 'temp"),
    ("shop: {temperature: 21, humidity: 101}", "shop: 8", "climate, shop", "humidity in % is 101.0; it must lie from"),
    ("shop: {temperature: 21, humidity: 96}", "shop: 8", "climate, shop", "it must lie from 5 to 95: the table is"),
    ("shop: {temperature: 21, humidity: 4}", "shop: 8", "climate, shop", "it must lie from 5 to 95: the table is"),
    ("shop: {temperature: 21, humidity: -3}", "shop: 8", "climate, shop", "is -3.0; it must lie from 5 to 95"),
    ("shop: {temperature: 95, humidity: 40}", "shop: 8", "climate, shop", "temperature in °C is 95.0; it must lie"),
    ("shop: {temperature: -5, humidity: 40}", "shop: 8", "climate, shop", "temperature in °C is -5.0; it must lie"),
    ("shop: {temperature: 21, humidity: dry}", "shop: 8", "climate, shop, humidity", f"'dry' {NO_NUMBER}"),
    # wood
    ("species: blak cherry", "species: black cherry", "wood, case", "did you mean 'black cherry'?", "case:\n    spec"),
    ("species: mahogny", "species: black cherry", "wood, case", "did you mean 'true mahogany'?", "case:\n    spec"),
    ("rings: plain-sawn", "rings: flat-sawn", "wood, case, rings", "no way to saw; did you mean 'flat-sawn'?"),
    ("ring: flat-sawn", "rings: flat-sawn", "wood, case", "there is no 'ring' here; did you mean 'rings'?"),
    ("rings: flat-sawn\n    like: elder", "rings: flat-sawn", "wood, case", "'elder' is not in the table", "case:\n  "),
    # a test piece: 100 before and 99 after at 12 % would shrink by getting damper
    (OWN(0, 99, "moisture after: 12"), "rings: flat-sawn", "wood, case, measured, 1, before", ABOVE),
    (OWN(100, 101, "moisture after: 8"), "rings: flat-sawn", "wood, case", "it must lie from 2 to 8", "case:\n  "),
    (OWN(100, 101, "moisture after: 32"), "rings: flat-sawn", "wood, case", "is 32.0; it must lie from 6", "case:\n  "),
    (OWN(100, 99, "moisture after: 12"), "rings: flat-sawn", "wood, case", "measure again", "case:\n  "),
    ("rings: flat-sawn\n    like: black cherry", "rings: flat-sawn", "wood, case", "No sample is given", "case:\n  "),
    (
        "measured: [{before: 100, after: 101, moisture before: 8, moisture after: 12}]", "rings: flat-sawn",
        "wood, case", "say by 'like:' which wood of the table all else is taken from", "case:\n  ",
    ),
]  # fmt: skip


@slips(SEASONS)
def test_season_and_wood(written, instead, path, said, place):
    text = edited(SOUND, (instead, written))
    if place.startswith("case:\n"):  # of the two parts of that name, the one under wood
        (sentence,) = faults(text)
        check_sentence(sentence)
        assert sentence.startswith(f"chest.yaml line {line_of(text, 'wood:') + 1}, {path}: "), sentence
        assert said in sentence
        return
    hear(text, place, path, said)


@pytest.mark.parametrize("missing", ["climate", "wood"])
def test_drawers_need_the_season(missing):
    text = edited(SOUND, (CLIMATE, "")) if missing == "climate" else SOUND[: SOUND.index("wood:")] + DRAWERS_ONLY
    hear(text, "drawers:", "drawers", f"need to know the season before their sides are cut; add '{missing}:' to the")


DRAWERS_ONLY = DRAWERS[DRAWERS.index("drawers:") : DRAWERS.index("strips:")].replace("kind: boards", "kind: sheet")


@pytest.mark.parametrize("key", ["strips", "back"])
def test_slots_and_boards_need_the_season(key):
    part = DRAWERS[DRAWERS.index(f"{key}:\n  {'fixed' if key == 'strips' else 'kind'}") :]
    hear(CASE + part, f"{key}:", key, "add 'climate:' and 'wood:' to the design file")


# What is missing or misspelt


def every_other(table):
    """A table's rows, every other one in the slow run only: what they have in common is not of the drawers."""
    slow = [[], [pytest.mark.slow]]
    return [pytest.param(*row, id=" ".join(row[:1]).strip(), marks=slow[at % 2]) for at, row in enumerate(table)]


MISSING = [
    ("  shop: 8\n", "shop", "climate"), ("  dry: 7\n", "dry", "climate"), ("  damp: 12\n", "damp", "climate"),
    ("  front: {species: red maple}\n", "front", "wood"), ("    species: black cherry\n", "species", "wood, case"),
    ("    thickness: 22\n", "thickness", "drawers, front"), ("      tail: 24\n", "tail", "drawers, corner, tails"),
    ("      half pin: 8\n", "half pin", "drawers, corner, tails"), ("    gap: 1.1\n", "gap", "drawers, side"),
    ("      pin: 6.25\n", "pin", "drawers, corner, tails"), ("    thickness: 12\n", "thickness", "drawers, side"),
    ("    thickness: 11\n", "thickness", "drawers, back"), ("    thickness: 8.5\n", "thickness", "drawers, bottom"),
    ("    tongue: 5.5\n", "tongue", "drawers, bottom"), ("    up: 10\n", "up", "drawers, bottom"),
    ("    groove: 5.75\n", "groove", "drawers, bottom"), ("  back room: 9\n", "back room", "drawers"),
    ("  base: 23\n", "base", "pulls"), ("  hole: 4.5\n", "hole", "pulls"), ("  thread: 13\n", "thread", "pulls"),
    ("  kind: boards\n", "kind", "back"), ("  thickness: 10\n", "thickness", "back"),
    ("  kerf: 2.9\n", "kerf", "grain"),
    ("  fixed: 40.5\n", "fixed", "strips"), ("  gauge: 8\n", "gauge", "strips"),
    ("  screws: [190, 340]\n", "screws", "strips"),
]  # fmt: skip


@pytest.mark.parametrize(("part", "name", "where"), every_other(MISSING))
def test_what_the_drawers_need(part, name, where):
    (sentence,) = faults(edited(SOUND, (part, "")))
    check_sentence(sentence)
    assert sentence.endswith(f", {where}: '{name}' is missing; add a line '{name}: …'.")


UNKNOWN = [
    ("setbak: 1", "setback: 0", "drawers, front", "setback"),
    ("least_gap: 1", "least gap: 1.25", "drawers, front", "least gap"),
    ("flm: 0.1", "film: 0.1", "drawers, front", "film"), ("jont: x", "joint: half-blind", "drawers, corner", "joint"),
    ("slop: 1/7", "slope: 1/7", "drawers, corner, tails", "slope"), ("dropp: 2", "drop: 2.2", "drawers, back", "drop"),
    ("ese: 1", "ease: 0.5", "drawers, bottom", "ease"), ("overhng: 1", "overhang: 0.3", "drawers, bottom", "overhang"),
    ("cariedd: x", "carried: runners", "drawers, riding", "carried"),
    ("no_stop: [3]", "no stop: [3]", "drawers, riding", "no stop"),
    ("frction: 1", "friction: 0.4", "drawers, riding", "friction"), ("share: [1]", "shares: [1/2]", "pulls", "shares"),
    ("rebat: 12", "rebate: 12.5", "back", "rebate"), ("overlp: 3", "overlap: 3.2", "back", "overlap"),
    ("trimm: 1", "trim: 1.9", "grain", "trim"), ("xtra: 1", "extra: 0.7", "strips", "extra"),
    ("climat:", "climate:", "top of the file", "climate"), ("strip:", "strips:", "top of the file", "strips"),
]  # fmt: skip


@pytest.mark.parametrize(("written", "instead", "where", "meant"), every_other(UNKNOWN))
def test_a_misspelt_name_is_said_and_the_right_one_offered(written, instead, where, meant):
    wrong = written.partition(":")[0]
    hear(edited(SOUND, (instead, written)), written, where, f"there is no '{wrong}' here; did you mean '{meant}'?")


def test_several_faults_come_at_once():
    text = edited(SOUND, ("thickness: 22", "thick: 22"), ("tongue: 5.5", "tongue: 0"), ("gauge: 8", "gauge: big"))
    said = faults(text)
    assert len(said) == 4  # one name too many, one too few, two values
    for sentence in said:
        check_sentence(sentence)


def test_a_stool_has_no_drawers():
    for key in ("climate", "wood", "drawers", "pulls", "back", "grain", "strips"):
        (sentence,) = faults(f"{STOOL}{key}: 3\n")
        assert f"there is no '{key}' here; " in sentence
