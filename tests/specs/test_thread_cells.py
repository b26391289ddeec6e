"""Thread cells: what is written beside the thread's name and hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.specs.thread_cells import ThreadCell, parse_thread, says_left_hand
from witnessmark.specs.written import Unreadable

CELLS = {
    "M8": ("M8", None),
    "M10 × 1.25": ("M10x1.25", None),
    "M10x1 left-hand": ("M10x1", True),
    "M10x1 LH": ("M10x1", True),
    "M6x40": ("M6", None),
    "left-hand": (None, True),
    "left hand thread": (None, True),
    "reverse thread": (None, True),
    "right-hand": (None, False),
    "3/8-16": ("3/8-16 UNC", None),
    "#10-32": ("#10-32 UNF", None),
    # Common practice: pedal axles and bottom bracket cups of cycles, a hub axle, a pipe.
    "9/16 x 20 LH": ("9/16-20", True),
    "1.37 x 24 TPI left-hand": ("1.37-24", True),
    "M9x1": ("M9x1", None),
    "1/2 BSP": ("1/2 BSP", None),
}


@pytest.mark.parametrize(("written", "expected"), CELLS.items(), ids=list(CELLS))
def test_thread(written: str, expected: tuple[str | None, bool | None]) -> None:
    assert parse_thread(written) == ThreadCell(*expected)


@pytest.mark.parametrize(
    "written", ["foo", "M", "M8x1.1", "M8x1.75", "M8x0", "3/0-16", "3/8-0", "(", "8 mm", "LH and RH", "M8 left"]
)
def test_no_thread(written: str) -> None:
    with pytest.raises(Unreadable):
        parse_thread(written)


def test_hand_in_a_name() -> None:
    assert says_left_hand("left-hand thread cup")
    assert says_left_hand("Left hand threaded nut")
    assert not says_left_hand("left-hand pedal")
    assert not says_left_hand("thread on the left")


@settings(deadline=None)
@given(st.text(max_size=40) | st.text("M0123456789x×/-.# LHleft hand", max_size=40))
def test_any_text_is_read_or_refused(written: str) -> None:
    try:
        cell = parse_thread(written)
    except Unreadable as why:
        assert why.problem
        assert why.remedy
    else:
        assert cell.name or cell.left_hand is not None
