"""Checks of the runs: whether they make one tree from the supply, and whether each circuit closes.

A run goes out from the far end of the run it comes from, and its return goes back there (`own`), straight to
the supply's negative (`chassis`), or lies in another run's return. Followed back from any run, both ways must
end at the supply.
"""

from collections.abc import Callable

from logic.data.faults import FaultList, shown
from logic.data.profile import Run
from logic.data.profile_check_places import check_reference, ids_of
from logic.data.profile_keys import RUN
from logic.data.profile_reading import Part


def check_runs(parts: list[Part], heaters: list[Part], faults: FaultList) -> tuple[Run, ...]:
    """The runs that are complete; faults of reference and of circuit go to `faults`."""
    known = ids_of(parts)
    for part in parts:
        if part.values.have("from"):
            check_reference(
                part.values["from"], known, faults,
                path=f"{part.path}.from", what="supply, or another run", words=("supply",),
            )  # fmt: skip
        if part.values.have("back"):
            check_reference(
                part.values["back"], known, faults,
                path=f"{part.path}.back", what="own, chassis, or another run", words=("own", "chassis"),
            )  # fmt: skip
    _check_feeds(parts, heaters, faults)
    by_id = {part.id: part for part in parts if part.id}
    looped = _check_from(by_id, faults)
    _check_back(by_id, looped, faults)
    _check_dead_ends(parts, faults)
    runs = (_run(part) for part in parts)
    return tuple(run for run in runs if run is not None)


def _check_feeds(parts: list[Part], heaters: list[Part], faults: FaultList) -> None:
    fed: dict[str, str] = {}
    known = ids_of(heaters)
    for part in parts:
        path = f"{part.path}.feeds"
        for heater in part.values.get("feeds") or ():
            if not check_reference(heater, known, faults, path=path, what="a heater"):
                continue
            if heater in fed:
                faults.add(
                    path,
                    found=f"{shown(heater)}, fed by {fed[heater]} already",
                    expected="each heater fed once",
                )
            else:
                fed[heater] = part.path


def _check_from(by_id: dict[str, Part], faults: FaultList) -> set[str]:
    """The runs that no way leads to from the supply."""

    def before(run: str) -> str | None:
        come_from = by_id[run].values.get("from")
        return None if come_from == "supply" else come_from

    looped = _loops(by_id, before)
    for run in sorted(looped, key=list(by_id).index):
        faults.add(
            f"{by_id[run].path}.from", found="a loop of runs", expected="a way that leads back to the supply"
        )
    return looped


def _check_back(by_id: dict[str, Part], looped: set[str], faults: FaultList) -> None:
    borrowing = set()
    for run, part in by_id.items():
        lender = part.values.get("back")
        if lender not in by_id:
            continue
        path = f"{part.path}.back"
        if lender == run:
            faults.add(path, found="the run itself", expected="own, chassis, or another run")
            borrowing.add(run)
        elif by_id[lender].values.get("back") in by_id:
            faults.add(
                path,
                found=f"{shown(lender)}, which has its return in another run",
                expected="a run with a return of its own",
            )
            borrowing.add(run)

    def behind(run: str) -> str | None:
        part = by_id[run]
        back = part.values.get("back")
        if back == "chassis" or run in borrowing or run in looped:
            return None
        return part.values.get("from") if back == "own" else back

    for run in sorted(_loops(by_id, behind), key=list(by_id).index):
        if by_id[run].values.get("back") != "own":
            faults.add(
                f"{by_id[run].path}.back",
                found="a return that leads round in a loop",
                expected="a return that leads to the supply",
            )


def _loops(by_id: dict[str, Part], after: Callable[[str], str | None]) -> set[str]:
    """The runs that lie on a loop of `after`; each run is walked once."""
    looped: set[str] = set()
    done: set[str] = set()
    for start in by_id:
        trail: list[str] = []
        on_trail: set[str] = set()
        run: str | None = start
        while run is not None and run in by_id and run not in done and run not in on_trail:
            trail.append(run)
            on_trail.add(run)
            run = after(run)
        if run is not None and run in on_trail:
            looped.update(trail[trail.index(run) :])
        done.update(trail)
    return looped


def _check_dead_ends(parts: list[Part], faults: FaultList) -> None:
    parents = {part.values.get("from") for part in parts}
    for part in parts:
        if part.values.get("feeds") == () and part.id and part.id not in parents:
            faults.add(
                f"{part.path}.feeds",
                found="a run that feeds nothing",
                expected="a heater, or a run that goes on from it",
            )


def _run(part: Part) -> Run | None:
    values = part.values
    if not all(key.name in values for key in RUN.keys):
        return None
    fuse = values["fuse"]
    if fuse is None:
        fuse = "auto" if values["from"] == "supply" else "none"
    fields = {key.name: values[key.name] for key in RUN.keys if key.name not in ("from", "fuse")}
    return Run(**fields, from_=values["from"], fuse=fuse)
