"""Where the demo rigs lie: beside the packages, in a source tree as well as once installed.

Both kinds of install put `rigs` next to `logic`, so that one rule finds it.
"""

from pathlib import Path


def rigs_folder() -> Path:
    """The folder of the rigs that come with the program."""
    return Path(__file__).resolve().parents[2] / "rigs"


def demo_rigs() -> tuple[Path, ...]:
    """The profiles in that folder, by name; none where the folder is missing."""
    return tuple(sorted(rigs_folder().glob("*.toml")))


def demo_rig(name: str) -> Path | None:
    """The demo rig with that name, its ending left out; None where there is none."""
    return next((path for path in demo_rigs() if path.stem == name), None)
