"""Moments on the hand-over sheet against the standard library's calendar."""

from datetime import datetime, timedelta, timezone

from hypothesis import example, given, settings
from hypothesis import strategies as st

from logic.data.state import Instant
from logic.handover.clock import clock_text

moments = st.one_of(
    st.floats(-1e9, 1e10),
    st.integers(-(10**7), 10**8).map(lambda minutes: minutes * 60.0),
    st.builds(lambda minutes, less: minutes * 60.0 - less, st.integers(0, 10**8), st.floats(0.0, 2e-6)),
)


@settings(max_examples=1000, deadline=None, derandomize=True, database=None)
@given(moments, st.integers(-86399, 86399))
@example(-0.25, 0)
@example(951_782_399.9999999, 0)  # a leap day's eve, rounded up to it
def test_a_moment_is_told_as_the_calendar_of_its_own_clock_has_it(at: float, offset: int) -> None:
    there = datetime.fromtimestamp(at, timezone(timedelta(seconds=offset)))
    assert clock_text(Instant(at, offset)) == f"{there:%Y-%m-%d %H:%M}"
