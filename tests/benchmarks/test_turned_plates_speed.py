"""How fast full-size plates of turned legs are written: a pattern of 720 mm over its sheets, and its stick."""

import pytest
from test_leg_profile_plate import turned

from furnlib.draw.file_outlet import save_pdf_pages
from furnlib.draw.plates.pattern import HALF_PATTERN
from furnlib.draw.plates.stick import STORY_STICK
from furnlib.draw.sheet import sheet
from furnlib.record.stamp import title_of


@pytest.mark.parametrize(("what", "of"), [("half pattern", HALF_PATTERN.sheets), ("story stick", STORY_STICK.sheets)])
@pytest.mark.parametrize("name", ["chest", "long"])
def test_a_full_size_pdf(benchmark, judge, tmp_path, what, of, name):
    """From the finished piece to the file on disk, all lengths of leg, every sheet with frame and title block."""
    piece, path = turned(name), tmp_path / "full_size.pdf"

    def write():
        plates = of(piece)
        whole = [sheet(plate, title_of(piece, plate, i, len(plates))) for i, plate in enumerate(plates, 1)]
        return save_pdf_pages(whole, path)

    benchmark.pedantic(write, rounds=5, warmup_rounds=1)
    assert path.stat().st_size > 5_000
    judge(f"{what}, {name}, {len(of(piece))} sheets", benchmark.stats.stats.median, 2, " s")
