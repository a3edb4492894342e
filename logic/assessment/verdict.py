"""The verdict on closing: counted from what was found and written, never typed."""

from collections.abc import Iterable

from logic.data.finding import NOTE, STOP, USE, Finding, Verdict
from logic.data.state import Item


def verdict_of(findings: Iterable[Finding], items: Iterable[Item] = ()) -> Verdict:
    """What still stands, by weight. Accepted findings and items that are done or accepted don't count.

    `closable` says that nothing known stops closing; it never says that it is safe.
    """
    standing = [finding for finding in findings if finding.accepted is None]
    weights = [finding.weight for finding in standing]
    weights += [item.weight for item in items if item.state == "open"]
    stops = weights.count(STOP)
    return Verdict(
        closable=stops == 0,
        stop=stops,
        use=weights.count(USE),
        note=weights.count(NOTE),
        needs_open=sum(1 for finding in standing if finding.weight == USE and finding.open),
    )
