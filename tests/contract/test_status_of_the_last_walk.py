"""`bellypan status` tells the last walk in plain lines once closing is near, and not before."""

from logic.assessment.last_walk import last_walk_of
from logic.session.intents import WriteItem
from tests.technician import HOUR, RIGS, Technician
from tui.command_line.status import status_lines


def walked(lines: list[str]) -> list[str]:
    return [line for line in lines if line.startswith("last walk: ")]


def test_a_timer_that_ended_unseen_is_due_and_says_what_it_waits_for(tmp_path):
    technician = Technician(RIGS / "two-tanks.toml", tmp_path)
    try:
        technician.work()
        running = [line for line in status_lines(technician.session, technician.now) if "dwell:" in line]
        assert running
        assert all(", until " in line for line in running)
        technician.at += 200 * HOUR
        late = [line for line in status_lines(technician.session, technician.now) if "dwell:" in line]
        assert len(late) == len(running)
        assert all(", due since " in line and "read the surface" in line for line in late)
    finally:
        technician.session.close()


def test_last_walk_is_told_a_line_for_each_place_once_closing_is_near(tmp_path):
    technician = Technician(RIGS / "two-tanks.toml", tmp_path)
    try:
        assert not walked(status_lines(technician.session, technician.now))
        technician.work()
        technician.act(WriteItem("a clamp is loose", "stop", "run.gray-feed"))
        lines = walked(status_lines(technician.session, technician.now))
        halts = last_walk_of(technician.look(), technician.session.state)
    finally:
        technician.session.close()
    assert len(lines) == len(halts)
    for line, halt in zip(lines, halts, strict=True):
        assert halt.title in line
        assert ("all seen" in line) == (halt.open == 0)
    assert [line for line in lines if "1 stop: a clamp is loose" in line] == [
        line for line in lines if "run gray-feed" in line
    ]
