"""How a rule of the punch list is declared, and how all of them are asked.

A rule looks at one part of one case, decides once, and words itself with its numbers. No rule reads another
rule's finding. Adding a rule is one declared function in the module of its subject.
"""

from collections.abc import Callable, Generator, Iterable, Iterator
from typing import Any

import msgspec

from logic.assessment.case import Case
from logic.assessment.pieces import at_once
from logic.data.finding import WEIGHTS, Acceptance, Finding
from logic.data.wording import Words

# What a rule may be asked about, and so how often: once for each part of that kind.
PER = ("rig", "tank", "bay", "drain", "heater", "run", "bundle", "supply", "wiring", "slot", "step")


class Find(msgspec.Struct, frozen=True):
    """What a rule found. A field left None is as the rule declares it."""

    text: Words
    remedy: Words
    weight: str | None = None
    place: str | None = None
    open: bool | None = None


def find(
    *,
    text: Words,
    remedy: Words,
    weight: str | None = None,
    place: str | None = None,
    open: bool | None = None,
) -> Find:
    """A find of the rule that returns it; `weight`, `place` and `open` override what the rule declares."""
    return Find(text, remedy, weight, place, open)


Check = Callable[[Case, Any], Find | Iterable[Find] | None]


class Rule(msgspec.Struct, frozen=True):
    id: str
    weight: str
    per: str
    source: str
    check: Check
    session: bool = False  # only where there is a session
    open: bool = False  # mending it needs the belly open
    acceptable: bool = True


RULES: list[Rule] = []


def rule(
    id: str,
    *,
    weight: str,
    per: str,
    source: str = "",
    session: bool = False,
    open: bool = False,
    acceptable: bool = True,
) -> Callable[[Check], Check]:
    """Declare a rule. The function gets the case and one part of the kind `per`."""
    if weight not in WEIGHTS or per not in PER:
        raise ValueError(f"rule {id}: weight {weight!r} or part {per!r} is not one of ours")

    def declare(check: Check) -> Check:
        RULES.append(
            Rule(
                id=id,
                weight=weight,
                per=per,
                source=source,
                check=check,
                session=session,
                open=open,
                acceptable=acceptable,
            )
        )
        return check

    return declare


def parts_for(case: Case, per: str) -> Iterator[tuple[str, Any]]:
    """Each part that a rule of this kind is asked about, with its place."""
    profile = case.profile
    if per == "rig":
        yield "rig", profile
    elif per in ("supply", "wiring"):
        yield per, getattr(profile, per)
    elif per == "slot":
        for view in case.slots.values():
            yield view.slot, view
    elif per == "step":
        for step in case.steps:
            yield step.id, step
    elif per == "bundle":
        for bundle in dict.fromkeys(run.bundle for run in profile.runs if run.bundle):
            yield f"bundle.{bundle}", bundle
    else:
        for part in getattr(profile, f"{per}s"):
            yield f"{per}.{part.id}", part


def findings_of(case: Case, accepted: dict[str, Acceptance]) -> tuple[Finding, ...]:
    """Every finding that stands in this case, heaviest first, then by the order of rules and profile."""
    return at_once(findings_in_pieces(case, accepted))


def findings_in_pieces(
    case: Case, accepted: dict[str, Acceptance]
) -> Generator[None, None, tuple[Finding, ...]]:
    """The same, a piece for each rule."""
    found: dict[str, Finding] = {}
    parts = {per: tuple(parts_for(case, per)) for per in PER}
    in_session = case.in_session
    for each in RULES:
        if each.session and not in_session:
            continue
        yield
        check = each.check
        for place, part in parts[each.per]:
            result = check(case, part)
            if result is None:
                continue
            for one in (result,) if isinstance(result, Find) else result:
                at = one.place or place
                finding_id = f"{each.id}:{at}"
                if finding_id in found:
                    continue
                found[finding_id] = Finding(
                    id=finding_id,
                    rule=each.id,
                    weight=one.weight or each.weight,
                    place=at,
                    text=one.text,
                    remedy=one.remedy,
                    open=each.open if one.open is None else one.open,
                    source=each.source,
                    acceptable=each.acceptable,
                    accepted=accepted.get(finding_id) if each.acceptable else None,
                )
    return tuple(sorted(found.values(), key=lambda finding: WEIGHTS.index(finding.weight)))
