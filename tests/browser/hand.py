"""What the browser tests of one live view share: a scratch notebook, and the hand that works its controls."""

import nbformat
from lab import open_notebook, shut_down, slider, stored_errors, typed_box

KERNEL = {"kernelspec": {"name": "python3", "display_name": "Python 3"}}  # else JupyterLab stops to ask


def scratch_notebook(page, lab, name, *sources):
    """Open a notebook of these cells; what it held as an error, before or after, fails."""
    cells = [nbformat.v4.new_code_cell(source) for source in sources]
    nbformat.write(nbformat.v4.new_notebook(cells=cells, metadata=KERNEL), lab.root / name)
    open_notebook(page, lab, name)
    assert not stored_errors(page)
    yield
    assert not stored_errors(page)
    shut_down(page)


class Hand:
    """What a maker touches and sees of the view that holds a control."""

    def __init__(self, page, control):
        self.page = page
        self.view = page.locator(".jp-OutputArea-output").filter(has=slider(page, control)).first
        self.picture, self.caption = self.view.locator("svg.furn"), self.view.get_by_role("status").last

    def type(self, name, text):
        """Type into a control's box, and press Enter."""
        box = typed_box(self.view, name)
        box.fill(text)
        box.press("Enter")

    def words(self):
        return [text.strip() for text in self.picture.locator("text").all_text_contents()]


def overlap(one, other):
    """By how many px two boxes reach into each other."""
    sides = (
        min(one[start] + one[size], other[start] + other[size]) - max(one[start], other[start])
        for start, size in (("x", "width"), ("y", "height"))
    )
    return min(sides)
