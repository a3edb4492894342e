"""All gates by their ids, and what of make safe holds a step under the vehicle or on wire."""

from logic.assessment import gates_bonding, gates_energising  # noqa: F401 (they declare)
from logic.assessment.gate import GATES, OVERRULABLE, block
from logic.assessment.steps.layout import PlannedStep
from logic.assessment.work_facts import PROVEN_DEAD, WorkFacts
from logic.data.step import Block
from logic.data.wording import Words, quantity, words
from logic.data.work_constants import BREAK

__all__ = ["GATES", "OVERRULABLE", "block", "made_safe", "why_lapsed"]


def made_safe(facts: WorkFacts, step: PlannedStep) -> tuple[Block, ...]:
    """What of make safe holds a step under the vehicle or on wire. Live tests are exempt."""
    template = step.template
    if (
        template.live
        or template.make_safe
        or not (template.under or template.on_wire)
        or facts.make_safe_holds
    ):
        return ()
    found = (_LAPSED[_why(facts)],) if facts.make_safe_lapsed else (_UNFINISHED,)
    if template.on_wire and not facts.is_done(PROVEN_DEAD):
        return (_DEAD, *found)
    return found


def _why(facts: WorkFacts) -> str:
    return next(why for why in _LAPSED if why in facts.whys_of_make_safe)


def why_lapsed(facts: WorkFacts) -> Words:
    """Why make safe must be done again; asked only where it must."""
    return _LAPSED[_why(facts)].text


_DEAD = block(
    "dead",
    text=words("not proven dead"),
    release=words("every source off, then the meter: a known source, the circuit, the known source again"),
)
_UNFINISHED = block(
    "make-safe",
    text=words("make safe is not finished"),
    release=words("finish the steps of make safe"),
)
# The heaviest reason first.
_LAPSED = {
    why: block("lapsed", text=text, release=words("do the steps of make safe again, in order"))
    for why, text in (
        ("live", words("make safe has lapsed: the circuit shows volts; find what feeds it")),
        ("energised", words("make safe has lapsed: a circuit was energised")),
        ("day", words("make safe has lapsed: a new day")),
        ("break", words("make safe has lapsed: a break of over {limit}", limit=quantity(BREAK, "hours"))),
    )
}
