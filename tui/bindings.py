"""Every action of the screen, declared once: its key, its words, and where it is carried out.

Keys, command palette, footer and help are all made from this table. A deed is a function of the app in a module
that is loaded when the key is first pressed; no letter stands here, because the reading line is always ready.
"""

from typing import NamedTuple


class Act(NamedTuple):
    id: str
    key: str  # as Textual calls it; empty: only in the palette, and behind the key of its list
    label: str  # two words, for the footer
    about: str  # one line, for palette and help
    deed: str  # module:function, under tui.deeds
    group: str


ACTS = (
    Act("help", "f1", "help", "Help for the pane you are in, and all keys", "look:show_help", "always"),
    Act("take-back", "f2", "take back", "Take the last reading back", "readings:take_back", "readings"),
    Act("swap", "f3", "swap last two", "Swap the last two readings: each goes to the other's slot", "readings:swap",
        "readings"),
    Act("menu", "f4", "what to do", "What can be done with the highlighted row", "menu:open_menu", "always"),
    Act("rig", "f5", "Rig", "Go to the Rig pane", "look:go_rig", "panes"),
    Act("figures", "f6", "Figures", "Go to the Figures pane", "look:go_figures", "panes"),
    Act("steps", "f7", "Steps", "Go to the Steps pane", "look:go_steps", "panes"),
    Act("punch", "f8", "Punch list", "Go to the Punch list", "look:go_punch", "panes"),
    Act("write-item", "f9", "write item", "Write an item on the punch list", "punch:write_item", "work"),
    Act("bottom", "f10", "tank bottom", "The bottom of a tank to scale, with its pads", "look:show_bottom", "more"),
    Act("theme", "f11", "theme", "The next colours: for bright sun, for the dark, and others", "look:next_theme",
        "always"),
    Act("units", "f12", "units", "Show the other units: inches and °F, or metric", "look:switch_units", "always"),
    Act("step", "ctrl+s", "start/done", "Start the highlighted step, or finish it", "steps:start_or_finish",
        "work"),
    Act("undo", "ctrl+z", "undo", "Undo typing, else the last thing recorded", "readings:undo", "always"),
    Act("redo", "ctrl+y", "redo", "Redo what was undone", "readings:redo", "always"),
    Act("spell", "ctrl+n", "nights", "The cold spell as a plot: outside, contents, ice", "look:show_spell", "more"),
    Act("wiring", "ctrl+g", "wiring", "The wiring as a tree: current, volts, fuse, gauge", "look:show_wiring", "more"),
    Act("tests", "ctrl+t", "tests", "The tests: expected beside measured, likely faults", "look:show_tests", "more"),
    Act("cut-list", "ctrl+l", "cut list", "The cut list, the spools and what to buy", "look:show_cut_list", "more"),
    Act("day", "ctrl+r", "day", "The day's record: what happened, what still fits into today", "look:show_day", "more"),
    Act("last-walk", "ctrl+f", "last walk", "The last walk before closing: all that will be out of sight, by place",
        "look:show_last_walk", "more"),
    Act("what-if", "ctrl+o", "what if", "Change a value and see what it would move, then keep or drop it",
        "look:show_what_if", "more"),
    # Behind F4, in the palette as well.
    Act("hold-step", "", "hold", "Hold the highlighted step, with a note", "steps:hold", "work"),
    Act("skip-step", "", "skip", "Skip the highlighted step, with a reason and a name", "steps:skip", "work"),
    Act("overrule", "", "overrule", "Overrule what holds the highlighted step, with a reason and a name",
        "steps:overrule", "work"),
    Act("record-step", "", "record", "Write down what the highlighted step asks for", "steps:record", "work"),
    Act("item-done", "", "item done", "Set the highlighted item to done", "punch:finish_item", "work"),
    Act("accept", "", "accept", "Accept the highlighted item or finding, with a reason and a name", "punch:accept",
        "work"),
    Act("punch-place", "", "one place", "Show the punch list of one place alone, or of all", "punch:by_place", "work"),
    Act("begin-day", "", "begin day", "Begin a day, and say when it stops", "steps:begin_day", "work"),
    Act("pace", "", "pace", "Plan minutes for a first-timer, or for a technician again", "steps:set_pace", "work"),
    Act("end-day", "", "end day", "End the day", "steps:end_day", "work"),
    Act("note", "", "note", "Write a note", "punch:write_note", "work"),
    Act("tape", "", "tape", "Say what the tape resolves: 1/16, 1/32, 1 mm", "readings:set_tape", "readings"),
    Act("change-value", "", "change value", "Change the highlighted value", "profile:change_value", "rig"),
    Act("add-part", "", "add part", "Add a tank, drain, heater, run or bay", "profile:add_part", "rig"),
    Act("copy-part", "", "copy part", "Copy the highlighted part of the rig", "profile:copy_part", "rig"),
    Act("remove-part", "", "remove part", "Take the highlighted part away", "profile:remove_part", "rig"),
    Act("copy-away", "", "copy session", "Copy the session to a file elsewhere, with what isn't saved",
        "keeping:copy_away", "always"),
    Act("take-over", "", "take over", "Take over a session whose holder has gone", "keeping:take_over", "always"),
    Act("another-rig", "", "another rig", "Open another session, or begin one", "look:another_rig", "always"),
)  # fmt: skip

BY_ID = {act.id: act for act in ACTS}
KEYED = tuple(act for act in ACTS if act.key)

KEY_NAMES = {
    "ctrl": "Ctrl",
    "shift": "Shift",
    "escape": "Esc",
    "enter": "Enter",
    "tab": "Tab",
    "left": "Left",
    "right": "Right",
}


def key_text(key: str) -> str:
    """A key as it is written on the screen: `f2` → `F2`, `ctrl+z` → `Ctrl+Z`."""
    return "+".join(KEY_NAMES.get(part, part.upper()) for part in key.split("+"))


# What stands in the last line, by what has the focus: at most five, the rest is in help and palette.
FOOTERS: dict[str, tuple[tuple[str, str], ...]] = {
    "line": (("enter", "take"), ("f2", "take back"), ("tab", "pane"), ("f1", "help"), ("ctrl+p", "all")),
    "rig": (("enter", "open"), ("f4", "what to do"), ("escape", "line"), ("f1", "help"), ("ctrl+p", "all")),
    "figures": (
        ("enter", "working"),
        ("f2", "take back"),
        ("escape", "line"),
        ("f1", "help"),
        ("ctrl+p", "all"),
    ),
    "steps": (
        ("ctrl+s", "start/done"),
        ("f4", "hold, skip, overrule"),
        ("escape", "line"),
        ("f1", "help"),
        ("ctrl+p", "all"),
    ),
    "punch": (
        ("f9", "write item"),
        ("f4", "accept, done, place"),
        ("escape", "line"),
        ("f1", "help"),
        ("ctrl+p", "all"),
    ),
}
