"""What the hand drives: the dimension control and the redrawing of pictures while it moves."""
