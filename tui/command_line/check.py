"""`bellypan check`: the figures and findings of a profile, or of a session as it stands."""

from logic.assessment.assess import assess
from logic.data.state import Assessment
from tui.command_line.answers import (
    figure_lines,
    figure_object,
    finding_lines,
    finding_object,
    verdict_line,
    verdict_object,
)
from tui.command_line.arguments import Given
from tui.command_line.exit_codes import DONE, REFUSED, fault
from tui.command_line.printing import say_all, say_json


def run(given: Given) -> int:
    word = given.option("--session")
    if word is not None:
        assessment = of_session(word, given.operands[0] if given.operands else None)
    elif given.operands:
        assessment = of_profile(given.operands[0])
    else:
        raise fault("check has nothing to look at", expected="a PROFILE.toml or --session SESSION")
    if given.has("--json"):
        say_json(check_object(assessment))
    else:
        say_all(check_lines(assessment))
    return DONE if assessment.verdict.closable else REFUSED


def of_profile(path: str) -> Assessment:
    """The design alone: slots that nobody has read yet don't count."""
    from tui.command_line.profiles import loaded

    return assess(loaded(path).profile)


def of_session(word: str, path: str | None) -> Assessment:
    """A session with its readings; the profile at `path`, if any, is compared on standard error."""
    from tui.command_line.clock import now
    from tui.command_line.sessions_held import watched

    with watched(word) as session:
        if path is not None:
            from tui.command_line.differences import complain_of_differences

            complain_of_differences(session, path)
        return session.assess(now())


def check_object(assessment: Assessment) -> dict[str, object]:
    """The answer of `--json`, as the format has it."""
    rig = assessment.planned.rig
    return {
        "format": 1,
        "rig": rig.name,
        "figures": [figure_object(figure, rig.units) for figure in assessment.figures],
        "findings": [finding_object(finding, rig.units) for finding in assessment.findings],
        "verdict": verdict_object(assessment.verdict),
    }


def check_lines(assessment: Assessment) -> list[str]:
    """The same for people."""
    rig = assessment.planned.rig
    lines = [rig.name, "", *figure_lines(assessment.figures, rig.units), ""]
    if assessment.findings:
        lines += ["punch list", *finding_lines(assessment.findings, rig.units), ""]
    return [*lines, verdict_line(assessment.verdict)]
