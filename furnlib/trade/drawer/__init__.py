"""Drawers: openings that grow by a rule and add up on the tape."""
