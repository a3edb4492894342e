"""A folder in memory, where there is one, for tests that open a session thousands of times."""

import os
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

MEMORY = Path("/dev/shm")


@pytest.fixture
def quick_folder(tmp_path) -> Iterator[Path]:
    """A folder of this test's own; a rename over a file costs no wait for a disk there."""
    if not (MEMORY.is_dir() and os.access(MEMORY, os.W_OK)):
        yield tmp_path
        return
    with tempfile.TemporaryDirectory(dir=MEMORY, prefix="bellypan-test-") as folder:
        yield Path(folder)
