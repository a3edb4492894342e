"""What is painted can be read: on terminals of 16 and 256 colours, without colour, and in every theme.

Contrast is WCAG 2.2's ratio, as in test_themes.py. What a colour becomes on a smaller terminal is what Rich makes of
it there; the tables of those colours are Rich's own, because each terminal brings its own 16.
"""

from contextlib import asynccontextmanager

import pytest
from rich._palettes import EIGHT_BIT_PALETTE, STANDARD_PALETTE, WINDOWS_PALETTE
from rich.color import Color, ColorSystem, ColorType
from textual._context import visible_screen_stack
from textual.geometry import Region
from textual.screen import ModalScreen

from tests.screens.real import MISTAKES, TWO_TANKS, assert_painted_whole, at_work
from tests.screens.test_themes import contrast
from tui.themes import DIM, GROUNDS, SUN, TEXT_ROLES

# WCAG 2.2: 1.4.6 (enhanced) 7:1, 1.4.3 (minimum) 4.5:1, 1.4.11 (what is no text) 3:1.
ENHANCED, MINIMUM, NO_TEXT = 7.0, 4.5, 3.0
SIXTEEN = {
    "standard": STANDARD_PALETTE,
    "windows": WINDOWS_PALETTE,
    "first of 256": [EIGHT_BIT_PALETTE[number] for number in range(16)],
}
OWN = {"sun": SUN, "dim": DIM}
PAIRS = [(role, ground) for role in TEXT_ROLES for ground in GROUNDS] + [("cursor-ink", "cursor-ground")]
THEMES = pytest.mark.parametrize("theme", list(OWN))
# Each screen by the keys that lead to it from the line.
SCREENS = {
    "line": (), "rig": ("f5", "down"), "figures": ("f6", "down"), "steps": ("f7", "down"), "punch": ("f8", "down"),
    "help": ("f1",), "menu": ("f5", "f4"), "form": ("f9", "s", "t"), "bottom": ("f10",), "nights": ("ctrl+n",),
    "wiring": ("ctrl+g",), "tests": ("ctrl+t",), "what if": ("ctrl+o",), "palette": ("ctrl+p",),
}  # fmt: skip


def hex_of(triplet) -> str:
    return "#{:02x}{:02x}{:02x}".format(*triplet)


def number(colour: Color, system: ColorSystem) -> int:
    """The number of the colour that a terminal of so many shows instead."""
    found = colour.downgrade(system).number
    assert found is not None
    return found


@pytest.mark.parametrize("table", SIXTEEN)
@THEMES
def test_every_role_can_be_read_with_16_colours(theme, table):
    palette = SIXTEEN[table]
    shown = {name: number(Color.parse(value), ColorSystem.STANDARD) for name, value in OWN[theme].items()}
    for role, ground in PAIRS:
        assert contrast(hex_of(palette[shown[role]]), hex_of(palette[shown[ground]])) >= MINIMUM, role
    assert contrast(hex_of(palette[shown["frame-focus"]]), hex_of(palette[shown["paper"]])) >= NO_TEXT


@THEMES
def test_every_role_can_be_read_with_256_colours(theme):
    shown = {name: number(Color.parse(value), ColorSystem.EIGHT_BIT) for name, value in OWN[theme].items()}
    for role, ground in PAIRS:
        ratio = contrast(*(hex_of(EIGHT_BIT_PALETTE[shown[each]]) for each in (role, ground)))
        assert ratio >= ENHANCED, role


# --- what is painted ---


def in_use(screen):
    """The parts of the screen that are in use: a dialog's box, the palette's; what lies dimmed behind them waits.

    WCAG 2.2 asks for no contrast of what can't be used at the moment.
    """
    if isinstance(screen, ModalScreen):
        return [widget.region for widget in screen.query("#box, CommandInput, CommandList")]
    return [screen.region]


def painted(driver, regions=None):
    """Every piece of text with a letter or digit in it, in use: (text, foreground, background)."""
    app = driver.app
    regions = regions or in_use(app.screen)
    visible_screen_stack.set(app._background_screens)
    for y, strip in enumerate(app.screen._compositor.render_strips()):
        for each in app._filters:
            strip = strip.apply_filter(each, app.screen.background_colors[1])
        x = 0
        for segment in strip:
            at, x = (x, y), x + segment.cell_length
            style = segment.style
            if style is None or not any(sign.isalnum() for sign in segment.text):
                continue
            if not any(at in region for region in regions):
                continue
            assert not style.dim, segment.text  # each terminal dims by another measure
            front, back = style.color, style.bgcolor
            if front is None or back is None or ColorType.DEFAULT in (front.type, back.type):
                continue
            yield segment.text, *((back, front) if style.reverse else (front, back))


def app_is_ready(driver) -> bool:
    """Whether there is enough to read; the palette looks its commands up at leisure."""
    return sum(1 for _ in painted(driver)) > 5


@asynccontextmanager
async def each_screen(tmp_path, theme):
    """The program in a theme, and a walk through its screens that gives the name of each."""
    async with at_work(MISTAKES, tmp_path) as driver:
        driver.app.theme = theme
        await driver.take("41 3/8")

        async def walk():
            for name, keys in SCREENS.items():
                await driver.press(*keys)
                await driver.until(lambda: app_is_ready(driver))
                await driver.settle()
                yield name
                while driver.app.screen is not driver.app.desk:
                    over = driver.app.screen
                    await driver.press("escape")
                    await driver.until(lambda over=over: driver.app.screen is not over)
                await driver.press("escape")
                await driver.until(lambda: driver.app.focused is driver.app.desk.line)

        yield driver, walk()


@THEMES
async def test_all_text_on_every_screen_has_the_contrast_of_its_theme(tmp_path, theme):
    async with each_screen(tmp_path, theme) as (driver, walk):
        async for name in walk:
            for text, front, back in painted(driver):
                assert contrast(hex_of(front.triplet), hex_of(back.triplet)) >= ENHANCED, (name, text)


@pytest.mark.parametrize("system", [ColorSystem.STANDARD, ColorSystem.EIGHT_BIT], ids=["16", "256"])
@THEMES
async def test_no_text_takes_the_colour_of_its_ground_with_fewer_colours(tmp_path, theme, system):
    async with each_screen(tmp_path, theme) as (driver, walk):
        async for name in walk:
            for text, front, back in painted(driver):
                shown = [hex_of(EIGHT_BIT_PALETTE[number(each, system)]) for each in (front, back)]
                assert contrast(*shown) >= MINIMUM, (name, text)


@THEMES
async def test_without_colour_no_screen_has_a_hue_and_all_of_it_can_be_read(tmp_path, theme, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    async with each_screen(tmp_path, theme) as (driver, walk):
        assert driver.app._filters
        async for name in walk:
            for text, front, back in painted(driver):
                for colour in (front, back):
                    red, green, blue = colour.triplet
                    assert red == green == blue, (name, text)
                assert contrast(hex_of(front.triplet), hex_of(back.triplet)) >= MINIMUM, (name, text)


@pytest.mark.parametrize("key", ["f9", "f4", "ctrl+p"])
@THEMES
async def test_verdict_can_be_read_behind_a_dialog(tmp_path, theme, key):
    async with at_work(MISTAKES, tmp_path) as driver:
        driver.app.theme = theme
        await driver.press("f5", key)
        await driver.until(lambda: isinstance(driver.app.screen, ModalScreen) and app_is_ready(driver))
        await driver.settle()
        head = [piece for piece in painted(driver, [Region(0, 0, 100, 1)]) if "DO NOT CLOSE" in piece[0]]
        assert head
        for text, front, back in head:
            assert contrast(hex_of(front.triplet), hex_of(back.triplet)) >= MINIMUM, text
            for system in (ColorSystem.STANDARD, ColorSystem.EIGHT_BIT):
                shown = [hex_of(EIGHT_BIT_PALETTE[number(each, system)]) for each in (front, back)]
                assert contrast(*shown) >= NO_TEXT, (text, system)


async def test_each_theme_that_f11_leads_to_paints_every_pane(tmp_path):
    """A theme of Textual's knows none of the roles; the third press once ended the program."""
    async with at_work(TWO_TANKS, tmp_path) as driver:
        seen = [driver.app.theme]
        while driver.app.theme not in seen[:-1]:
            await driver.press("f11")
            await driver.until(lambda: driver.app.theme != seen[-1])
            await driver.settle()
            await driver.sees("gray tank", f"theme: {driver.app.theme}")
            assert_painted_whole(driver)
            seen.append(driver.app.theme)
        assert len(seen) > len(OWN) + 1
