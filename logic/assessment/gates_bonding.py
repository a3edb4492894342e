"""What holds holes and bonds back: pipes not seen, a wet wall, a cold wall, a wall near the dew point."""

from logic.assessment.gate import MARGIN_ARITHMETIC, block, called, gate, name_of
from logic.assessment.steps.layout import PlannedStep
from logic.assessment.work_facts import WorkFacts
from logic.data.constants import DEW_MARGIN
from logic.data.step import Block
from logic.data.wording import quantity, words
from logic.physics.bonding import dew_point

# An answer that begins with one of these doesn't call the wall dry: `not yet`, `damp at the rear`.
NOT_DRY = ("no", "not", "n", "wet", "damp", "nearly", "almost")


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
    if facts.history(dry).status == "done" and since_wash and _first_word(said) not in NOT_DRY:
        return None
    return block(
        "dry",
        text=words("{tank} is not recorded dry", tank=called(facts, f"tank.{tank}")),
        release=words("dry the wall and say so in the step for {tank}", tank=called(facts, f"tank.{tank}")),
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
            "warm it by {gap}, read it again: warm water in the tank, the cabin's heat, an electric warmer",
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
            "wall {surface} is {margin} {side} the dew point of {dew}, wants {least} over it",
            surface=quantity(surface.value, "temperature"),
            margin=quantity(abs(margin), "difference"),
            side="over" if margin >= 0 else "under",
            dew=quantity(dew, "temperature"),
            least=quantity(DEW_MARGIN, "difference"),
        ),
        release=words(
            "warm the wall to {warm}, or wait for drier air, and read again",
            warm=quantity(dew + DEW_MARGIN, "temperature"),
        ),
    )


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


# An answer that begins with one of these finds nothing: `not seen`, `none found`. It errs towards looking again.
NOT_SEEN = ("no", "not", "none", "nothing", "n", "unseen", "unsure", "?")


def _first_word(said: str) -> str:
    return said.replace(",", " ").replace(".", " ").partition(" ")[0]


def _holds_drilling(facts: WorkFacts, *, id: str, key: str, located: str) -> Block | None:
    if _first_word(_found(facts, key, located)) not in NOT_SEEN and facts.history(located).times_done > 0:
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
