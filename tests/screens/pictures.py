"""The README's pictures, taken of the real program on demo rigs: `python -m tests.screens.pictures` renews them."""

import asyncio
import re
import tempfile
from pathlib import Path

from logic.data.profile_file import load_profile
from logic.data.state import Instant
from logic.session.session import new_session
from tui.app import Bellypan
from tui.show.marks import SIGNS
from tui.wiring import Wiring

FOLDER = Path(__file__).parent / "pictures"
RIGS = Path(__file__).parents[2] / "rigs"
MORNING = Instant(20_000 * 86_400.0 + 9 * 3600.0)

# Name · rig · size · keys, each `press:…` or what is typed, a line break being Enter.
PICTURES = (
    ("readings", "two-tanks", (100, 30), ("38 1/2\n", "21\n", "8 7/8\n")),
    ("punch-list", "with-mistakes", (100, 30), ("press:f8",)),
    ("nights", "full-belly", (100, 30), ("press:ctrl+n",)),
    ("small", "two-tanks", (80, 24), ("38 1/2\n", "press:f6")),
)
FONT_FACE = re.compile(r"@font-face\s*\{.*?\}\s*", re.DOTALL)


async def picture(rig: str, size: tuple[int, int], keys: tuple[str, ...], home: Path) -> str:
    """The program's screen after these keys, as SVG that loads nothing from anywhere."""
    session = new_session(load_profile(RIGS / f"{rig}.toml"), MORNING, home=home, by="someone")
    app = Bellypan(lambda: Wiring(session, marks=SIGNS, now=lambda: MORNING), marks=SIGNS)
    app.title = "bellypan"
    async with app.run_test(size=size) as pilot:
        while app.desk.line.taker is None:
            await pilot.pause()
        for each in keys:
            if each.startswith("press:"):
                await pilot.press(each.removeprefix("press:"))
            else:
                for sign in each:
                    await pilot.press({"\n": "enter", " ": "space", "/": "slash"}.get(sign, sign))
            await pilot.pause()
        await pilot.pause()
        shot = app.export_screenshot(simplify=True)
    session.close()
    return re.sub(r"font-family: ?Fira Code[^;]*;", "font-family: monospace;", FONT_FACE.sub("", shot))


def main() -> None:
    FOLDER.mkdir(exist_ok=True)
    for name, rig, size, keys in PICTURES:
        with tempfile.TemporaryDirectory() as home:
            shot = asyncio.run(picture(rig, size, keys, Path(home)))
        (FOLDER / f"{name}.svg").write_text(shot, encoding="utf-8")
        print(f"{name}.svg, {len(shot) // 1000} kB")


if __name__ == "__main__":
    main()
