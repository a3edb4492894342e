"""The one door for intents: each is checked and becomes what is to be recorded, or a refusal."""

from collections.abc import Callable
from typing import Any

from logic.data.state import Instant
from logic.data.wording import words
from logic.session import check_profile, check_punch, check_readings, check_work, intents
from logic.session.intents import Decided, Intent, Refused
from logic.session.standing import Standing

CHECKS: dict[type[Intent], Callable[[Any, Standing, Instant], Decided | Refused]] = {
    intents.RecordReading: check_readings.record_reading,
    intents.StrikeReading: check_readings.strike_reading,
    intents.MoveReading: check_readings.move_reading,
    intents.SwapLastTwo: check_readings.swap_last_two,
    intents.TakeBackReading: check_readings.take_back_reading,
    intents.SetTape: check_readings.set_tape,
    intents.StartStep: check_work.start_step,
    intents.FinishStep: check_work.finish_step,
    intents.HoldStep: check_work.hold_step,
    intents.SkipStep: check_work.skip_step,
    intents.OverruleStep: check_work.overrule_step,
    intents.RecordInStep: check_work.record_in_step,
    intents.BeginDay: check_work.begin_day,
    intents.EndDay: check_work.end_day,
    intents.SetPace: check_work.set_pace,
    intents.WriteItem: check_punch.write_item,
    intents.FinishItem: check_punch.finish_item,
    intents.AcceptItem: check_punch.accept_item,
    intents.WriteNote: check_punch.write_note,
    intents.TickPart: check_punch.tick_part,
    intents.MarkSheetMade: check_punch.mark_sheet_made,
    intents.ChangeProfile: check_profile.change_profile,
    intents.AddPart: check_profile.add_part,
    intents.RemovePart: check_profile.remove_part,
    intents.UndoLast: check_profile.undo_last,
    intents.RedoLast: check_profile.redo_last,
}


def decide(intent: Intent, standing: Standing, now: Instant) -> Decided | Refused:
    """What an intent comes to, given how the session stands. Changes nothing."""
    check = CHECKS.get(type(intent))
    if check is None:
        return Refused(words("nothing can be done with {intent}", intent=type(intent).__name__))
    return check(intent, standing, now)
