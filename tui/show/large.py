"""The value just taken, in letters three rows high, to be read from two metres away.

Digits of three by three cells, as Textual's own, and with them what a tape's value needs and those lack:
a fraction bar, foot and inch marks, a degree sign, and the units as small text on the lowest row.
"""

from tui.show.cells import width_of

HEIGHT = 3

_LINES = {
    "0": ("┏━┓", "┃ ┃", "┗━┛"),
    "1": ("╺┓ ", " ┃ ", "╺┻╸"),
    "2": ("╺━┓", "┏━┛", "┗━╸"),
    "3": ("╺━┓", " ━┫", "╺━┛"),
    "4": ("╻ ╻", "┗━┫", "  ╹"),
    "5": ("┏━╸", "┗━┓", "╺━┛"),
    "6": ("┏━╸", "┣━┓", "┗━┛"),
    "7": ("╺━┓", "  ┃", "  ╹"),
    "8": ("┏━┓", "┣━┫", "┗━┛"),
    "9": ("┏━┓", "┗━┫", "╺━┛"),
    "-": ("   ", "╺━╸", "   "),
    "−": ("   ", "╺━╸", "   "),
    "+": ("   ", "╺╋╸", "   "),
    ".": (" ", " ", "▪"),
    ",": (" ", " ", "▪"),
    "/": ("  ╱", " ╱ ", "╱  "),
    "'": ("╹", " ", " "),
    "′": ("╹", " ", " "),
    '"': ("╹╹", "  ", "  "),
    "″": ("╹╹", "  ", "  "),
    "°": ("o", " ", " "),
    ">": ("╲ ", " ╲", "╱ "),
    " ": ("  ", "  ", "  "),
}

_PLAIN = {
    "0": (" _ ", "| |", "|_|"),
    "1": ("   ", "  |", "  |"),
    "2": (" _ ", " _|", "|_ "),
    "3": (" _ ", " _|", " _|"),
    "4": ("   ", "|_|", "  |"),
    "5": (" _ ", "|_ ", " _|"),
    "6": (" _ ", "|_ ", "|_|"),
    "7": (" _ ", "  |", "  |"),
    "8": (" _ ", "|_|", "|_|"),
    "9": (" _ ", "|_|", " _|"),
    "-": ("   ", " _ ", "   "),
    "−": ("   ", " _ ", "   "),
    "+": ("   ", " + ", "   "),
    ".": (" ", " ", "."),
    ",": (" ", " ", "."),
    "/": ("  /", " / ", "/  "),
    "'": ("'", " ", " "),
    "′": ("'", " ", " "),
    '"': ('"', " ", " "),
    "″": ('"', " ", " "),
    "°": ("o", " ", " "),
    ">": ("\\ ", " >", "/ "),
    " ": ("  ", "  ", "  "),
}


def large(text: str, *, ascii_only: bool = False) -> tuple[str, str, str]:
    """Three lines that show `text` large. What has no large form stands small on the lowest line."""
    glyphs = _PLAIN if ascii_only else _LINES
    rows = ["", "", ""]
    previous_small = True
    for sign in text:
        glyph = glyphs.get(sign)
        if glyph is None:
            width = width_of(sign)
            glyph = (" " * width, " " * width, sign)
            gap = ""
        else:
            gap = "" if previous_small else " "
        if not rows[2] or sign == " ":
            gap = ""
        for index in range(HEIGHT):
            rows[index] += gap + glyph[index]
        previous_small = sign not in glyphs or sign == " "
    return rows[0], rows[1], rows[2]


def large_fits(text: str, width: int) -> bool:
    """Whether the large form of `text` stands in `width` cells."""
    return width_of(large(text)[0]) <= width
