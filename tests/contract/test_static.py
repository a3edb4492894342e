"""The architecture, the types and the style are run as tests, so that one command checks everything."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
CHECKS = {
    "ruff": ("-m", "ruff", "check", "."),
    "mypy": ("-m", "mypy"),
    "import contracts": ("-c", "from importlinter.cli import lint_imports_command; lint_imports_command()"),
}


@pytest.mark.parametrize("check", CHECKS)
def test_the_source_passes(check):
    done = subprocess.run(
        [sys.executable, *CHECKS[check]], cwd=ROOT, capture_output=True, text=True, timeout=300, check=False
    )
    assert done.returncode == 0, f"{check}:\n{done.stdout}\n{done.stderr}"
