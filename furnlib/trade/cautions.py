"""What stands beside work that can hurt someone. Local rules and licensed practice come first."""

from __future__ import annotations

MACHINE = (
    "These figures say where to cut; how to cut safely is in the handbook of your own machine.",
    "Leave guards and riving knife on. Clamp small or round work in a jig; no hand holds it to a blade.",
    "Below your machine's shortest length, saw the part from a longer piece.",
    "Pull the plug before you change a blade. In a class, wait until the teacher says go.",
)
TABLE_SAW = (
    "Tilted blade: the off-cut must be free to fall away, never pinched against the fence.",
    "On a cut right through use the mitre gauge or the fence, not the two together.",
    "Push stick in hand, body out of the line of the blade. A leg is a short piece: clamp it.",
    "Try the setting on waste of the same square first.",
)
TIP_OVER = (
    "Fix chests and tall cases to a sound part of the wall before anything goes in, with fittings",
    "made for that wall. Heavy things low, one drawer open at a time. Follow the rules where it will",
    "stand. Nothing in these sheets is a test, a rating or a certificate.",
)
CLASS = ("A task on a sheet is never leave to run a machine that nobody has shown you.",)
