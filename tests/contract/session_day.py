"""A session with a clock that goes on by itself, for the tests of what intents become."""

from logic.data.quantities import fill
from logic.data.state import Instant
from logic.session import intents
from logic.session.intents import (
    Refused,
    Taken,
)
from logic.session.kept_session import Session
from tests.crash.kept_sessions import START

LENGTH, WIDTH = "tank.gray.length", "tank.gray.width"


class Day:
    """A session and a clock that goes on a minute with each intent, unless said otherwise."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.seconds = 0.0

    @property
    def now(self) -> Instant:
        return Instant(START + self.seconds, -3600)

    def send(self, intent: intents.Intent, *, after: float = 60.0):
        self.seconds += after
        return self.session.act(intent, self.now)

    def take(self, intent: intents.Intent, *, after: float = 60.0) -> Taken:
        answer = self.send(intent, after=after)
        assert isinstance(answer, Taken), words_of(answer)
        return answer

    def refuse(self, intent: intents.Intent, *, after: float = 60.0) -> Refused:
        before = self.session.events[-1].id, self.session.state
        answer = self.send(intent, after=after)
        assert isinstance(answer, Refused), answer
        assert (self.session.events[-1].id, self.session.state) == before
        return answer

    def readings(self, slot: str) -> list[str]:
        return [
            reading.typed
            for reading in self.session.state.readings
            if reading.slot == slot and not reading.struck
        ]

    def step(self, step_id: str):
        return next(step for step in self.session.assess(self.now).steps if step.id == step_id)


def words_of(answer) -> str:
    return " ".join(fill(reason, "us") for reason in (answer.reason, *answer.more))
