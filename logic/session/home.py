"""Where sessions lie. A module of its own, because the screen asks this before its first frame."""

import os
from pathlib import Path

HOME_VARIABLE = "BELLYPAN_HOME"


def sessions_folder() -> Path:
    """The folder in which sessions lie; it needn't be there yet."""
    given = os.environ.get(HOME_VARIABLE)
    if given:
        return Path(given).expanduser().absolute()
    from platformdirs import user_data_path

    return user_data_path("bellypan", appauthor=False)


def any_session() -> bool:
    """Whether there is a folder that may be a session; which ones they are is asked of `folder.py`."""
    try:
        return any(entry.is_dir() for entry in os.scandir(sessions_folder()))
    except OSError:
        return False
