"""Anything that may be done to a session, in any order, for a short while; for long: `session_machine.py`."""

from hypothesis import HealthCheck, settings

from tests.properties.session_machine import SessionMachine

TestSession = SessionMachine.TestCase
TestSession.settings = settings(
    max_examples=25,
    stateful_step_count=25,
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
