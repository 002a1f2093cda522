"""The plates: each takes a finished piece and returns a drawing. They compute no sizes."""
