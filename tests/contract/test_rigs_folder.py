"""The demo rigs are found wherever the packages lie: in a source tree, and once they are installed."""

import json
import shutil
import subprocess
import sys

from logic.data.rigs_folder import demo_rig, demo_rigs, rigs_folder
from tests.contract.headless import RIGS, ROOT, clean_environment


def test_a_source_tree_finds_its_own_rigs():
    assert rigs_folder() == RIGS
    assert [path.name for path in demo_rigs()] == sorted(path.name for path in RIGS.glob("*.toml"))


def test_a_demo_rig_is_found_by_its_name_alone():
    assert demo_rig("two-tanks") == RIGS / "two-tanks.toml"
    assert demo_rig("no-such-rig") is None
    assert demo_rig("../pyproject") is None


def test_an_installed_copy_finds_its_rigs_and_its_tables(tmp_path):
    site = tmp_path / "site"
    for folder in ("logic", "tui", "rigs"):
        shutil.copytree(ROOT / folder, site / folder, ignore=shutil.ignore_patterns("__pycache__"))
    program = (
        "from logic.data.rigs_folder import demo_rigs\n"
        "from tui.command_line.main import main\n"
        "main(['check', str(demo_rigs()[0]), '--json'])"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        cwd=tmp_path,
        env=clean_environment(tmp_path) | {"PYTHONPATH": str(site)},
        timeout=60,
        check=False,
    )
    assert done.stderr == ""
    assert json.loads(done.stdout)["figures"]
