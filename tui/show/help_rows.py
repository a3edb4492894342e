"""Help as rows: the pane one is in, then the keys by group, then the marks and the words of our own."""

from tui.bindings import ACTS, key_text
from tui.show.cells import pad
from tui.show.marks import STEP_WORDS, Marks, slot_mark, step_mark, weight_mark
from tui.show.rows import FAINT, HEAD, PLAIN, STRONG, Row, Span, line, wrapped

ABOUT = {
    "start": (
        "Which rig to begin with",
        "A session is one rig and all that is read and done on it: those begun before stand first, the one worked on "
        "last before the others, and nothing in them is lost. A new rig asks a few plain questions, each with a "
        "default: every size that it guesses is read later on the tape.",
        "A demo rig is invented and there to try the program on: nothing that is read there touches your own. A "
        "profile's file is a rig written in TOML; bellypan schema says what may stand in it.",
        "Once a rig is open these keys are there:",
    ),
    "line": (
        "The reading line",
        "It names the slot that is wanted, with its unit; type what the tape shows and press Enter. 41 3/8, 41-3/8 and "
        "41+3/8 are alike; 3' 5 3/8\", 105.1 cm and 41.375 are fine as well; ± 1/16 says how well it could be read.",
        "Several at once: 41 3/8; 24; 9 1/2 fill this slot and the next ones. Another slot: up and down, or a part of "
        "its name before the value: gray len 41 3/8. A meter over its range: OL.",
        "Each deciding slot is read twice; the first value stays out of sight until the second is taken. F2 takes the "
        "last reading back; nothing is ever lost: a struck reading stays in its slot's list.",
    ),
    "rig": (
        "Rig",
        "Places of the rig, those that owe first. Enter on a place unfolds it; on a slot it shows each reading "
        "taken; F4 strikes or moves one, changes a value of the profile, adds, copies or takes away a part.",
    ),
    "figures": (
        "Figures",
        "By place, the place at work first. ± is one standard uncertainty of the readings, a … b is the model's band. "
        "What the last event moved is marked with the value before. Enter opens the working.",
    ),
    "steps": (
        "Steps",
        "The work in order. Ctrl+S starts the highlighted step, or finishes it and goes on to what may start next, "
        "work that can go on while adhesive cures first. Enter or F4: hold, skip, overrule, record. What holds a step "
        "and what would release it stand below it. Make safe lapses with each new day, "
        "after an hour's break, and once anything was energised.",
    ),
    "punch": (
        "Punch list",
        "What the rules found and what was written: stop stops closing, use is for before use, note a note. What is "
        "only still to be done is folded: Enter opens it. Left and right show one weight alone, with Shift "
        "one place alone. Enter or F4: go to it, done, accept. An accepted entry stays listed.",
    ),
}

GROUPS = {
    "always": "Always",
    "readings": "Readings",
    "panes": "Panes",
    "work": "Work",
    "more": "More to look at, each left with Esc",
    "rig": "The rig",
}

OWN_WORDS = (
    ("slot", "one thing to be read: a length, a current"),
    ("spell", "the run of cold nights that the rig must stand"),
    ("bay", "a closed belly"),
    ("return", "the negative wire"),
    ("holds to", "the coldest outside that the heaters hold against"),
    ("least liquid", "what must be in a tank before its heater may be on"),
    ("in dispute", "readings that differ by more than the tape explains"),
    ("accepted", "someone took it upon them, with a reason and a name"),
    ("lapsed", "done once, to be done again"),
)


def help_rows(pane: str, marks: Marks, width: int) -> list[Row]:
    """All of help, beginning with the pane that is asked about."""
    head, *texts = ABOUT.get(pane, ABOUT["line"])
    rows = [
        Row("about", (line(Span(head, HEAD)), *(each for text in texts for each in wrapped(text, width)), ()))
    ]
    for group, name in GROUPS.items():
        lines = [line(Span(name, HEAD))]
        for act in ACTS:
            if act.group == group:
                key = key_text(act.key) if act.key else "F4"
                first, *rest = wrapped(act.about, width - 9)
                lines.append(line(Span(pad(key, 9), STRONG), *first))
                lines.extend(line(" " * 9, *each) for each in rest)
        rows.append(Row(f"group:{group}", (*lines, ())))
    rows.append(
        Row(
            "leave",
            (
                line(Span(pad("Ctrl+P", 9), STRONG), Span("every action, by name", PLAIN)),
                line(Span(pad("Esc", 9), STRONG), Span("one step back; in a pane, to the line", PLAIN)),
                line(Span(pad("Ctrl+Q", 9), STRONG), Span("leave; everything is on disk", PLAIN)),
                (),
            ),
        )
    )
    rows.append(
        Row("marks", (line(Span("Marks, each beside its word", HEAD)), *mark_lines(marks, width), ()))
    )
    words = [each for word, said in OWN_WORDS for each in wrapped(f"{word}: {said}", width)]
    rows.append(Row("words", (line(Span("Words", HEAD)), *words, ())))
    rows.append(Row("estimates", wrapped(
        "The program estimates; it certifies nothing. Local code and the maker's sheet overrule every figure here.",
        width, FAINT,
    )))  # fmt: skip
    return rows


def mark_lines(marks: Marks, width: int) -> tuple[tuple[Span, ...], ...]:
    """Every mark with its word."""
    slots = [
        f"{slot_mark(marks, state)} {state}"
        for state in ("planned", "single", "agreed", "in dispute", "impossible")
    ]
    steps = [f"{step_mark(marks, state)} {word}" for state, word in STEP_WORDS.items()]
    steps.extend((f"{marks.lapsed} lapsed", f"{marks.timer} timer"))
    weights = [f"{weight_mark(marks, weight)} {weight}" for weight in ("stop", "use", "note")]
    return tuple(each for group in (slots, steps, weights) for each in wrapped("   ".join(group), width))
