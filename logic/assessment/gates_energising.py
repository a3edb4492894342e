"""What holds filling and energising back: adhesive, liquid, unfinished wire, a leak, another live circuit."""

from logic.assessment.gate import MARGIN_ARITHMETIC, block, called, gate, name_of
from logic.assessment.steps.layout import PlannedStep
from logic.assessment.work_facts import WorkFacts
from logic.data.step import Block
from logic.data.wiring_constants import LEAST_ISOLATION
from logic.data.wording import quantity, words


@gate("dwell")
def adhesive_holds(facts: WorkFacts, step: PlannedStep) -> Block | None:
    """A pad's adhesive is inside the hours that its sheet wants before filling and energising."""
    name = name_of(step)
    of_tank = step.template.per == "tank"
    heaters = facts.relations.heaters_of_tank[name] if of_tank else facts.relations.heaters_behind(name)
    worst: tuple[float, Block] | None = None
    for heater in heaters:
        bond = facts.dwell_of(heater, filling=True)
        if bond is None or bond.reached:
            continue
        left = facts.case.heaters[heater].before_filling - bond.counted
        found = _inside_its_time(facts, heater=heater, left=left)
        if worst is None or left > worst[0]:
            worst = (left, found)
    return worst[1] if worst is not None else None


def _inside_its_time(facts: WorkFacts, *, heater: str, left: float) -> Block:
    bond = facts.dwell_of(heater, filling=True)
    assert bond is not None
    wanted = facts.case.heaters[heater].before_filling
    text = words(
        "adhesive of {heater}: {counted} counted of the {wanted} before filling and energising",
        heater=called(facts, f"heater.{heater}"),
        counted=quantity(bond.counted, "hours"),
        wanted=quantity(wanted, "hours"),
    )
    if bond.due is not None and bond.open_tail >= left:
        release = words(
            "read the surface, after a night the lowest since: what has passed counts once it is known"
        )
    elif bond.due is not None:
        release = words("{left} more with the wall warm, then read the surface", left=quantity(left, "hours"))
    else:
        release = words(
            "warm the wall to {least} and read it: no hour counts below that",
            least=quantity(facts.case.heaters[heater].least_surface_degc, "temperature"),
        )
    due = facts.steady.shown(bond.due) if bond.due is not None else None
    return block("dwell", text=text, release=release, due=due)


@gate("level")
def liquid_over_heaters(facts: WorkFacts, step: PlannedStep) -> Block | None:
    """A tank of this circuit has no level read, or one under its least liquid."""
    behind = frozenset(facts.relations.heaters_behind(name_of(step)))
    for tank, heaters in facts.relations.on_walls.items():
        if not behind.intersection(heaters):
            continue
        least = facts.case.value(f"tank.{tank}.least_level")
        if least is None:
            return block(
                "level",
                text=words(
                    "the least liquid of {tank} is not known: a pad has no place, or lies over the brim",
                    tank=called(facts, f"tank.{tank}"),
                ),
                release=words(
                    "give each pad of {tank} a place that liquid can cover",
                    tank=called(facts, f"tank.{tank}"),
                ),
            )
        drained = facts.history(f"drain-flush:tank.{tank}").ended
        reading = facts.newest(f"tank.{tank}.level", since=drained)
        if reading is None:
            return block(
                "level",
                text=words("no level read in {tank}", tank=called(facts, f"tank.{tank}")),
                release=words(
                    "fill {tank} to {least} and read its level",
                    tank=called(facts, f"tank.{tank}"),
                    least=quantity(least, "length"),
                ),
            )
        if reading.value < least - MARGIN_ARITHMETIC:
            return block(
                "level",
                text=words(
                    "{tank} stands at {level}, its heaters want {least}",
                    tank=called(facts, f"tank.{tank}"),
                    level=quantity(reading.value, "length"),
                    least=quantity(least, "length"),
                ),
                release=words(
                    "{more} more in {tank}, then read its level",
                    more=quantity(least - reading.value, "length"),
                    tank=called(facts, f"tank.{tank}"),
                ),
            )
    return None


# --- fuses and what is live ---


@gate("fuse-last")
def fuse_last(facts: WorkFacts, step: PlannedStep) -> Block | None:
    """Wire of this circuit is unfinished: its fuse stays out."""
    run = name_of(step)
    places = frozenset(f"run.{one}" for one in (*facts.relations.up(run), *facts.relations.behind(run)))
    for each in facts.planned_in("wire"):
        of_circuit = each.place in places or each.place == "rig"
        if of_circuit and not facts.is_done(each.id):
            return block(
                "fuse-last",
                text=words("the fuse stays out, not done yet: {title}", title=each.title),
                release=words("finish it first: the fuse goes in last"),
            )
    return None


@gate("isolation")
def isolated(facts: WorkFacts, step: PlannedStep) -> Block | None:
    """The circuit's newest isolation reading is under the least."""
    reading = facts.newest(f"{step.place}.isolation")
    if reading is None or reading.over or reading.value >= LEAST_ISOLATION:
        return None
    return block(
        "isolation",
        text=words(
            "{run} leaks to the chassis: {measured}, wants {least}",
            run=called(facts, step.place),
            measured=quantity(reading.value, "ohms"),
            least=quantity(LEAST_ISOLATION, "ohms"),
        ),
        release=words("find where its harness chafes, then read its isolation again"),
    )


@gate("one-live")
def one_circuit_at_a_time(facts: WorkFacts, step: PlannedStep) -> Block | None:
    """Another circuit is live."""
    others = [run for run in facts.live if run != name_of(step)]
    if not others:
        return None
    return block(
        "one-live",
        text=words("{run} is live", run=called(facts, f"run.{others[0]}")),
        release=words(
            "take the fuse of {run} out: one circuit at a time", run=called(facts, f"run.{others[0]}")
        ),
    )


@gate("live")
def circuit_is_live(facts: WorkFacts, step: PlannedStep) -> Block | None:
    """A loaded test waits for its own circuit to be energised."""
    name = name_of(step)
    circuit = name if step.template.per == "circuit" else facts.relations.circuit_of_heater(name)
    if circuit is None:
        return block(
            "live",
            text=words("{heater} is in no fused circuit", heater=called(facts, step.place)),
            release=words("feed {heater} from a fused run", heater=called(facts, step.place)),
        )
    if circuit in facts.live:
        return None
    return block(
        "live",
        text=words("{run} is not energised", run=called(facts, f"run.{circuit}")),
        release=words("energise {run} alone, its fuse last", run=called(facts, f"run.{circuit}")),
    )
