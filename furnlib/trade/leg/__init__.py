"""Legs that lean: the direction of a leg and what follows from it at the saw."""
