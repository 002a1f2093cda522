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
DRILLING = (
    "Seat or leg, and ramp, are clamped to the table of the drill; no hand holds them. A spare board lies behind.",
    "On a slope a bit runs off: start the hole square or lead the bit through a guide.",
    "A bit that screws itself into the wood is not for a powered drill. A long bit turns slowly.",
    "Try ramp and gauge on a board of the same thickness first.",
)
CRADLE = (
    "A round leg rolls: it is sawn clamped in its cradle, never held in the hand.",
    "Too short to be clamped clear of the blade? Then saw it from a longer piece.",
    "The off-cut must be free to fall away. Try the cradle on waste of the same diameter first.",
)
LATHE = (
    "Chuck key out; tailstock locked; rest close and locked. Local rules come first, and in a class the teacher.",
    "Before the motor turns the work, turn it by hand; do so again whenever the rest was moved. Stop to measure.",
    "Begin at a slow speed for the corner-to-corner swing, out of its line, behind a face shield.",
    "No gloves, rings, loose sleeves or loose hair. For sanding the rest is taken away, and no cloth is used.",
    "A glued blank must be fully cured. One with a visible open line or a split is not turned at all.",
)
FINISH = (
    "Rags and sanding dust with drying oil can grow hot and take fire by themselves: spread the rags out of doors to",
    "dry, or keep them under water in a closed metal can, as the tin says.",
    "No flame and no spark near solvent vapour or a collector of dust. Fine dust harms the lungs, some woods irritate,",
    "and oak, beech and birch are among those listed as causing cancer: extraction, a mask that fits, and the limits",
    "in force where you work. Near children or food, read the finish's own sheet first.",
)
STRUCTURE = (
    "Strength and stiffness are handbook estimates for clear, sound wood, and single boards lie far apart.",
    "They show where a part is thin; they are no rating of what it bears.",
    "They are not for stairs, ladders, bunk or high beds, cradles, storage overhead, or what a person hangs from:",
    "for those follow the rules in force where it will stand, and ask a licensed professional.",
)
TIP_OVER = (
    "Fix chests and tall cases to a sound part of the wall before anything goes in, with fittings",
    "made for that wall. Heavy things low, one drawer open at a time. Follow the rules where it will",
    "stand. Nothing in these sheets is a test, a rating or a certificate.",
)
SEAT = (
    "These sheets say how a seat is made, not what it bears. Sit down with care the first time.",
    "Follow the rules where it will be used. Nothing in these sheets is a test, a rating or a certificate.",
)
CLASS = ("A task on a sheet is never leave to run a machine that nobody has shown you.",)
