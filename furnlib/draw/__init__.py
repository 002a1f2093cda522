"""Floor 3: a picture is made once, as data, and shown anywhere: on the page, on paper, in a file."""
