"""Floor 5: lessons that check themselves: formulas proved, exercises with a reply, sheets for a class."""
