"""Nothing ever goes to the network: with every socket forbidden, each command answers and the screen is worked on.

In a child with an audit hook, which sees each address that is looked up, each socket that is made to connect or
sent from, whoever makes it. Pairs of sockets within the process, which an event loop wakes itself with, are let be.
"""

import subprocess

import pytest

from logic.data.rigs_folder import rigs_folder
from tests.contract.headless import ROOT, clean_environment, command
from tests.fuzz.answers import sound

FORBIDDEN = """
import sys
KINDS = ("socket.connect", "socket.bind", "socket.sendto", "socket.sendmsg", "socket.getaddrinfo",
         "socket.gethostbyname", "socket.gethostbyaddr", "socket.getnameinfo", "urllib.Request", "http.client.connect",
         "ftplib.connect", "smtplib.connect", "webbrowser.open")
def hook(event, arguments):
    if event in KINDS or (event == "socket.__new__" and arguments[1] != 1):
        import os
        os.write(2, f"NETWORK {event} {arguments[1:]}\\n".encode())
        os._exit(99)
sys.addaudithook(hook)
"""
COMMAND = FORBIDDEN + "from tui.command_line.main import run\nrun()\n"
SCREEN = (
    FORBIDDEN
    + """
import asyncio
async def work():
    from tests.screens.driver import driven
    async with driven() as driver:
        await driver.type("41 3/8\\n")
        for key in ("f1", "escape", "f8", "f2", "escape", "f3", "escape", "f5", "escape", "ctrl+p", "escape"):
            await driver.press(key)
        await driver.press("f8")
asyncio.run(work())
print("worked")
"""
)


def ran(program: str, *words: str, home, given: bytes = b"") -> subprocess.CompletedProcess:
    return subprocess.run(
        [command()[0], "-c", program, *words],
        input=given,
        capture_output=True,
        cwd=ROOT,
        env=clean_environment(home) | {"PYTHONWARNINGS": "default"},
        timeout=60,
        check=False,
    )


def test_the_watch_itself_sees_a_socket(tmp_path):
    for tried in ("socket.socket()", "socket.getaddrinfo('localhost', 80)"):
        done = ran(FORBIDDEN + f"import socket\n{tried}", home=tmp_path)
        assert done.returncode == 99
        assert b"NETWORK" in done.stderr


@pytest.fixture
def places(tmp_path):
    home, rig = tmp_path / "home", str(rigs_folder() / "two-tanks.toml")
    session = sound(["open", rig, "--new"], home=home).output.strip()
    rows = tmp_path / "rows.csv"
    rows.write_text("time,temperature_degC\n2026-01-01T00:00,1\n2026-01-01T01:00,1\n")
    return {"RIG": rig, "ID": session, "OUT": str(tmp_path), "ROWS": str(rows), "HOME": str(home)}


@pytest.mark.parametrize(
    "words",
    [
        "open RIG --new", "check RIG --json", "check --session ID", "status ID", "read ID tank.gray.length 38",
        "read ID -", "step ID chocks:rig start", "punch ID add look", "sessions", "sources", "schema", "profile ID",
        "sheet ID -o OUT/s.html", "sheet ID -o OUT/s.md", "copy ID OUT/c.json", "season RIG --hourly ROWS", "--version",
    ],
)  # fmt: skip
def test_no_command_opens_a_socket(places, words):
    for name, place in places.items():
        words = words.replace(name, place)
    done = ran(COMMAND, *words.split(" "), home=places["HOME"], given=b"tank.gray.width 21\n")
    assert b"NETWORK" not in done.stderr, done.stderr
    assert done.returncode in (0, 1), done.stderr


def test_the_screen_opens_no_socket(tmp_path):
    done = ran(SCREEN, home=tmp_path)
    assert b"NETWORK" not in done.stderr, done.stderr
    assert done.stdout.endswith(b"worked\n"), done.stderr[-2000:]
