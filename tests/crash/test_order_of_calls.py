"""In what order a save reaches the disk, by a trace of the system calls: a kill doesn't test a pulled plug.

An event: written, synced, acknowledged. A document: written beside, synced, the old one kept, renamed, the
folder synced; and only then is what the journal held let go of.
"""

import re
import shutil
import subprocess
import sys

import pytest

from tests.crash.kept_sessions import filled
from tests.crash.long_run import ROOT
from tests.crash.traced_recorder import NOTES

CALLS = "openat,open,creat,write,pwrite64,writev,fsync,fdatasync,rename,renameat,renameat2,link,linkat"
_LINE = re.compile(r"(?:\d+ +)?(\w+)\((.*)\) += (-?\d+)")


class Call:
    """One system call: its name, its arguments as strace shows them, its result."""

    def __init__(self, name: str, arguments: str, result: int) -> None:
        self.name, self.arguments, self.result = name, arguments, result


def trace_of_a_session(home, session_id: str, into) -> list[Call]:
    strace = shutil.which("strace")
    if strace is None:
        pytest.skip("no strace here")
    command = [strace, "-y", "-s", "4096", "-e", f"trace={CALLS}", "-o", str(into)]
    recorder = [sys.executable, "-m", "tests.crash.traced_recorder", str(home), session_id]
    done = subprocess.run([*command, *recorder], cwd=ROOT, capture_output=True, text=True, timeout=120)
    if done.returncode != 0 and "ptrace" in done.stderr.lower():
        pytest.skip("tracing isn't allowed here")
    assert done.returncode == 0, done.stderr
    matches = map(_LINE.match, into.read_text(errors="replace").splitlines())
    return [Call(match[1], match[2], int(match[3])) for match in matches if match and int(match[3]) >= 0]


def place_of(calls: list[Call], *holds: str, name: str | tuple[str, ...], after: int = -1) -> int:
    """Where the first call of that name stands whose arguments hold all of these."""
    for place, call in enumerate(calls):
        if place > after and call.name in name and all(part in call.arguments for part in holds):
            return place
    raise AssertionError(f"no {name} with {holds} behind {after}")


@pytest.fixture(scope="module")
def calls(tmp_path_factory) -> list[Call]:
    home = tmp_path_factory.mktemp("home")
    session = filled(home, 4)
    return trace_of_a_session(home, session.id, tmp_path_factory.mktemp("trace") / "calls")


WRITE, SYNC, RENAME = ("write",), ("fsync",), ("rename", "renameat", "renameat2")


@pytest.mark.parametrize("text", NOTES)
def test_an_event_is_written_then_synced_then_acknowledged(calls, text):
    written = place_of(calls, "journal.jsonl>", text, name=WRITE)
    said = place_of(calls, f"taken {text}", name=WRITE)
    synced = place_of(calls, "journal.jsonl>", name=SYNC, after=written)
    assert written < synced < said


def test_a_document_is_synced_before_it_takes_its_name_and_the_folder_after(calls):
    renamed = place_of(calls, 'session.json.new"', 'session.json"', name=RENAME)
    written = place_of(calls, "session.json.new>", name=WRITE)
    synced = place_of(calls, "session.json.new>", name=SYNC)
    kept = place_of(calls, 'session.before.json.new"', 'session.before.json"', name=RENAME)
    folder = folder_synced(calls, after=renamed)
    assert written < synced < kept < renamed < folder
    assert folder < place_of(calls, f"taken {NOTES[0]}", name=WRITE)


def test_the_journal_is_there_on_the_disk_before_the_document_that_says_so(calls):
    begun = place_of(calls, 'journal.jsonl.new"', 'journal.jsonl"', name=RENAME)
    folder = folder_synced(calls, after=begun)
    assert place_of(calls, "journal.jsonl.new>", name=SYNC) < begun < folder
    assert folder < place_of(calls, 'session.json.new"', 'session.json"', name=RENAME)


def test_the_journal_is_let_go_of_only_when_the_document_is_on_the_disk(calls):
    last = place_of(calls, f"taken {NOTES[-1]}", name=WRITE)
    renamed = place_of(calls, 'session.json.new"', 'session.json"', name=RENAME, after=last)
    folder = folder_synced(calls, after=renamed)
    turned = place_of(calls, 'journal.jsonl"', 'journal.before.jsonl"', name=RENAME, after=last)
    assert place_of(calls, "session.json.new>", name=SYNC, after=last) < renamed < folder < turned


def folder_synced(calls: list[Call], *, after: int) -> int:
    """Where the session's folder is synced next."""
    for place in range(after + 1, len(calls)):
        if calls[place].name == "fsync" and re.search(r"small-2026-01-05-\w+>$", calls[place].arguments):
            return place
    raise AssertionError("the folder isn't synced")
