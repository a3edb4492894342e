"""What holds a step back beside the steps before it: the wall, the weather, adhesive, liquid, fuses, what is live.

Each gate is one function, named by the id that templates give; it returns what is wrong and what would release it.
"""

from collections.abc import Callable

from logic.assessment.steps.layout import PlannedStep
from logic.assessment.work_facts import PROVEN_DEAD, WorkFacts
from logic.data.constants import DEW_MARGIN
from logic.data.step import Block
from logic.data.wiring_constants import LEAST_ISOLATION
from logic.data.wording import Words, quantity, words
from logic.data.work_constants import BREAK
from logic.physics.bonding import dew_point

Gate = Callable[[WorkFacts, PlannedStep], Block | None]
GATES: dict[str, Gate] = {}

# A person may overrule these with a reason and a name; no other.
OVERRULABLE = frozenset({"surface", "dew", "dry", "dwell"})
MARGIN_ARITHMETIC = 1e-6  # K, m: a limit that is met exactly is met


def gate(id: str) -> Callable[[Gate], Gate]:
    def declare(function: Gate) -> Gate:
        GATES[id] = function
        return function

    return declare


def block(id: str, *, text: Words, release: Words, due: float | None = None) -> Block:
    return Block(id=id, text=text, release=release, overrulable=id in OVERRULABLE, due=due)


def name_of(step: PlannedStep) -> str:
    return step.place.partition(".")[2]


# --- bonding ---


@gate("dry")
def wall_dry(facts: WorkFacts, step: PlannedStep) -> Block | None:
    """The wall was not recorded dry since it was last washed."""
    tank = facts.relations.tank_of_heater.get(name_of(step))
    if tank is None:
        return None
    dry = f"dry:tank.{tank}"
    said = facts.recorded(dry, "dry")
    washed, dried = facts.history(f"wash:tank.{tank}").ended, facts.history(dry).ended
    since_wash = washed is None or (dried is not None and dried >= washed)
    if facts.history(dry).status == "done" and since_wash and said not in ("no", "wet", "not dry"):
        return None
    return block(
        "dry",
        text=words("{tank} is not recorded dry", tank=tank),
        release=words("dry the wall and say so in the step for {tank}", tank=tank),
    )


@gate("surface")
def surface_warm(facts: WorkFacts, step: PlannedStep) -> Block | None:
    """The wall is colder than the pad's sheet allows."""
    reading = facts.fresh("work.surface", facts.now)
    least = facts.case.heaters[name_of(step)].least_surface_degc
    if reading is None or reading.value >= least - MARGIN_ARITHMETIC:
        return None
    return block(
        "surface",
        text=words(
            "wall {surface}, wants {least}",
            surface=quantity(reading.value, "temperature"),
            least=quantity(least, "temperature"),
        ),
        release=words(
            "warm it by {gap} and read it again: warm water in the tank, the cabin's heat, an electric warmer",
            gap=quantity(least - reading.value, "difference"),
        ),
    )


@gate("dew")
def above_dew_point(facts: WorkFacts, step: PlannedStep) -> Block | None:
    """The wall is too near the dew point: a film of water forms under the pad."""
    surface = facts.fresh("work.surface", facts.now)
    air = facts.fresh("work.air", facts.now)
    humidity = facts.fresh("work.humidity", facts.now)
    if surface is None or air is None or humidity is None:
        return None
    if not 0.0 < humidity.value <= 1.0:
        return block(
            "reading:work.humidity",
            text=words("a humidity of {humidity} can't be", humidity=quantity(humidity.value, "share")),
            release=words("read the humidity again"),
        )
    dew = dew_point(air.value, humidity.value)
    margin = surface.value - dew
    if margin >= DEW_MARGIN - MARGIN_ARITHMETIC:
        return None
    return block(
        "dew",
        text=words(
            "wall {surface} is {margin} over the dew point of {dew}, wants {least}",
            surface=quantity(surface.value, "temperature"),
            margin=quantity(margin, "difference"),
            dew=quantity(dew, "temperature"),
            least=quantity(DEW_MARGIN, "difference"),
        ),
        release=words(
            "warm the wall to {warm}, or wait for drier air, and read again",
            warm=quantity(dew + DEW_MARGIN, "temperature"),
        ),
    )


# --- adhesive and liquid ---


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
        heater=heater,
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
                    tank=tank,
                ),
                release=words("give each pad of {tank} a place that liquid can cover", tank=tank),
            )
        drained = facts.history(f"drain-flush:tank.{tank}").ended
        reading = facts.newest(f"tank.{tank}.level", since=drained)
        if reading is None:
            return block(
                "level",
                text=words("no level read in {tank}", tank=tank),
                release=words(
                    "fill {tank} to {least} and read its level", tank=tank, least=quantity(least, "length")
                ),
            )
        if reading.value < least - MARGIN_ARITHMETIC:
            return block(
                "level",
                text=words(
                    "{tank} stands at {level}, its heaters want {least}",
                    tank=tank,
                    level=quantity(reading.value, "length"),
                    least=quantity(least, "length"),
                ),
                release=words(
                    "{more} more in {tank}, then read its level",
                    more=quantity(least - reading.value, "length"),
                    tank=tank,
                ),
            )
    return None


# --- drilling ---


def _found(facts: WorkFacts, key: str, located: str) -> str:
    """`not seen` where the newest record of a pipe or cable says so, else empty."""
    newest: tuple[float, str] = (-1.0, "")
    for step in (located, "seen-or-not:rig"):
        for event in facts.events.get(step, ()):
            value = dict(event.recorded).get(key, "")
            for part in event.note.split(";"):
                heading, colon, said = part.partition(":")
                if colon and heading.strip() == key:
                    value = said.strip()
            at = facts.steady.of(event.id)
            if value and at >= newest[0]:
                newest = (at, value.strip().lower())
    return newest[1]


NOT_SEEN = ("not seen", "no", "unseen", "?")


def _holds_drilling(facts: WorkFacts, *, id: str, key: str, located: str) -> Block | None:
    if _found(facts, key, located) not in NOT_SEEN and facts.history(located).times_done > 0:
        return None
    return block(
        id,
        text=words("{key} not seen", key=key),
        release=words("find the {key} from both sides, mark it, and record it seen", key=key),
    )


@gate("gas")
def gas_pipe_seen(facts: WorkFacts, step: PlannedStep) -> Block | None:
    """The gas pipe was not seen: nothing is drilled."""
    return _holds_drilling(facts, id="gas", key="gas pipe", located="gas-located:rig")


@gate("mains")
def mains_cable_seen(facts: WorkFacts, step: PlannedStep) -> Block | None:
    """A 120 V cable was not seen: nothing is drilled."""
    return _holds_drilling(facts, id="mains", key="120 V cable", located="mains-located:rig")


# --- energising ---


@gate("fuse-last")
def fuse_last(facts: WorkFacts, step: PlannedStep) -> Block | None:
    """Wire of this circuit is unfinished: its fuse stays out."""
    run = name_of(step)
    places = frozenset(f"run.{one}" for one in (*facts.relations.up(run), *facts.relations.behind(run)))
    for each in facts.planned:
        of_circuit = each.place in places or each.place == "rig"
        if each.template.group == "wire" and of_circuit and not facts.is_done(each.id):
            return block(
                "fuse-last",
                text=words("{title} is not done: the fuse stays out", title=each.title),
                release=words("finish {title} first, the fuse goes in last", title=each.title),
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
            run=name_of(step),
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
        text=words("{run} is live", run=others[0]),
        release=words("take the fuse of {run} out: one circuit at a time", run=others[0]),
    )


@gate("live")
def circuit_is_live(facts: WorkFacts, step: PlannedStep) -> Block | None:
    """A loaded test waits for its own circuit to be energised."""
    name = name_of(step)
    circuit = name if step.template.per == "circuit" else facts.relations.circuit_of_heater(name)
    if circuit is None:
        return block(
            "live",
            text=words("{heater} is in no fused circuit", heater=name),
            release=words("feed {heater} from a fused run", heater=name),
        )
    if circuit in facts.live:
        return None
    return block(
        "live",
        text=words("{run} is not energised", run=circuit),
        release=words("energise {run} alone, its fuse last", run=circuit),
    )


# --- make safe: not named by templates, asked for every step under the vehicle or on wire ---


def made_safe(facts: WorkFacts, step: PlannedStep) -> tuple[Block, ...]:
    """What of make safe holds a step under the vehicle or on wire. Live tests are exempt: they say so themselves."""
    template = step.template
    if (
        template.live
        or template.make_safe
        or not (template.under or template.on_wire)
        or facts.make_safe_holds
    ):
        return ()
    found = []
    if template.on_wire and not facts.is_done(PROVEN_DEAD):
        found.append(
            block(
                "dead",
                text=words("not proven dead"),
                release=words(
                    "every source off, then the meter: a known source, the circuit, the known source again"
                ),
            )
        )
    if facts.make_safe_lapsed:
        found.append(
            block(
                "lapsed", text=why_lapsed(facts), release=words("do the steps of make safe again, in order")
            )
        )
    else:
        found.append(
            block(
                "make-safe",
                text=words("make safe is not finished"),
                release=words("finish the steps of make safe"),
            )
        )
    return tuple(found)


def why_lapsed(facts: WorkFacts) -> Words:
    """Why make safe must be done again."""
    whys = {facts.why_lapsed(each.id) for each in facts.planned if each.template.make_safe}
    if "energised" in whys:
        return words("make safe has lapsed: a circuit was energised")
    if "day" in whys:
        return words("make safe has lapsed: a new day")
    return words("make safe has lapsed: a break of over {limit}", limit=quantity(BREAK, "hours"))
