"""Floor 1: what a maker knows. Pure functions and frozen results, no state, no pictures."""
