"""Two themes of our own, by named roles: one light of high contrast for sun, one dim for the dark.

A test measures every text role against every ground that it may stand on (WCAG 2.2, at least 7:1), and what is left
of each where a terminal has 256 colours or 16: that is why some hues are darker than they need be.
"""

from textual.theme import Theme

# What text may be, and what it may stand on. The names are those of the style sheet.
TEXT_ROLES = ("ink", "faint", "strong-ink", "head", "good", "warn", "bad", "moved")
GROUNDS = ("paper", "ground")

SUN = {
    "paper": "#ffffff",
    "ground": "#f2f0e8",
    "ink": "#000000",
    "faint": "#2a2a2a",
    "strong-ink": "#000000",
    "head": "#002b66",
    "good": "#004d1a",
    "warn": "#5a2400",
    "bad": "#7a0010",
    "moved": "#4a0072",
    "frame": "#5a5a5a",
    "frame-focus": "#002b66",
    "cursor-ground": "#000000",
    "cursor-ink": "#ffffff",
}

DIM = {
    "paper": "#0d0b09",
    "ground": "#16130f",
    "ink": "#cfc4b0",
    "faint": "#ab9f8c",
    "strong-ink": "#eadfca",
    "head": "#d8b98a",
    "good": "#a9bf8a",
    "warn": "#d9ad62",
    "bad": "#f09a86",
    "moved": "#c3add8",
    "frame": "#5c5346",
    "frame-focus": "#d8b98a",
    "cursor-ground": "#cfc4b0",
    "cursor-ink": "#0d0b09",
}


def theme_of(name: str, roles: dict[str, str], *, dark: bool) -> Theme:
    """A theme from its roles; Textual's own names are led back to them."""
    return Theme(
        name=name,
        primary=roles["head"],
        secondary=roles["moved"],
        accent=roles["head"],
        warning=roles["warn"],
        error=roles["bad"],
        success=roles["good"],
        foreground=roles["ink"],
        background=roles["paper"],
        surface=roles["ground"],
        panel=roles["ground"],
        dark=dark,
        variables={
            **roles,
            "input-cursor-background": roles["ink"],
            "input-cursor-foreground": roles["paper"],
            "scrollbar": roles["frame"],
            "scrollbar-background": roles["ground"],
            "text-muted": roles["faint"],
        },
    )


THEMES = (theme_of("sun", SUN, dark=False), theme_of("dim", DIM, dark=True))


def roles_from(variables: dict[str, str]) -> dict[str, str]:
    """Our roles out of a theme that doesn't know them: Textual's own."""
    ink, paper = variables["foreground"], variables["background"]
    return {
        "paper": paper,
        "ground": variables["surface"],
        "ink": ink,
        "faint": variables.get("text-muted", ink),
        "strong-ink": ink,
        "head": variables["primary"],
        "good": variables["success"],
        "warn": variables["warning"],
        "bad": variables["error"],
        "moved": variables["accent"],
        "frame": variables["panel"],
        "frame-focus": variables["primary"],
        "cursor-ground": ink,
        "cursor-ink": paper,
    }
