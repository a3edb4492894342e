"""`bellypan punch`: the punch list, and what can be done to it from a script."""

from logic.data.finding import WEIGHTS
from logic.data.quantities import fill
from logic.session.intents import AcceptItem, FinishItem, Intent, WriteItem
from logic.session.session import Session
from tui.command_line.answers import verdict_line
from tui.command_line.arguments import Given
from tui.command_line.clock import now
from tui.command_line.exit_codes import DONE, fault
from tui.command_line.layout import table
from tui.command_line.printing import say, say_all, say_json
from tui.command_line.recording import recorded, refused
from tui.command_line.sessions_held import held, watched

EXPECTED = "SESSION, SESSION add TEXT, SESSION done ID, or SESSION accept ID --reason TEXT --name NAME"


def run(given: Given) -> int:
    words = given.operands
    if not words:
        raise fault("punch lacks a session", expected=EXPECTED)
    as_json = given.has("--json")
    if len(words) == 1:
        with watched(words[0]) as session:
            listed(session, as_json)
        return DONE
    intent = intent_of(given)
    with held(words[0]) as session:
        answer = recorded(session, intent)
        if not answer.taken:
            return refused(answer.words, as_json=as_json)
        if as_json:
            listed(session, as_json)
        else:
            say(answer.words)
    return DONE


def intent_of(given: Given) -> Intent:
    """What the words after the session ask for."""
    _, verb, *rest = given.operands
    text = " ".join(rest)
    if verb not in ("add", "done", "accept"):
        raise fault(f"punch doesn't know {verb}", expected="add, done or accept")
    if not text:
        raise fault(f"punch {verb} lacks its {'text' if verb == 'add' else 'id'}", expected=EXPECTED)
    if verb == "add":
        weight = given.option("--weight") or "stop"
        if weight not in WEIGHTS:
            raise fault(f"--weight {weight}", expected=", ".join(WEIGHTS))
        return WriteItem(text=text, weight=weight, place=given.option("--place") or "")
    if verb == "done":
        return FinishItem(item=text)
    reason, name = given.option("--reason"), given.option("--name")
    if not reason or not name:
        raise fault("accept lacks a reason or a name", expected="--reason TEXT --name NAME")
    return AcceptItem(item=text, reason=reason, name=name)


def listed(session: Session, as_json: bool) -> None:
    """Everything on the punch list, found and written, heaviest first."""
    assessment = session.assess(now())
    units = assessment.planned.rig.units
    items = [
        {
            "id": finding.id,
            "weight": finding.weight,
            "place": finding.place,
            "text": fill(finding.text, units),
            "state": "accepted" if finding.accepted else "open",
        }
        for finding in assessment.findings
    ]
    items += [
        {"id": item.id, "weight": item.weight, "place": item.place, "text": item.text, "state": item.state}
        for item in session.state.items
    ]
    items.sort(key=lambda item: (item["state"] != "open", WEIGHTS.index(item["weight"])))
    if as_json:
        say_json({"items": items})
        return
    say_all(table([(item["state"], item["weight"], item["id"], item["text"]) for item in items], indent=""))
    say(verdict_line(assessment.verdict))
