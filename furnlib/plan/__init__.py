"""Floor 2: one piece and its job, from the design file to every size with its rule."""
