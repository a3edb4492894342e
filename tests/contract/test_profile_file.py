"""Whatever a profile's file holds or is, it is read or refused in words, within two seconds."""

import os
import time
from pathlib import Path

import pytest

from logic.data.faults import ProfileFaults
from logic.data.profile_file import LARGEST_FILE, load_profile
from tests.contract.profile_documents import SOUND

LONGEST = 2.0  # s of this process: what else the machine does is not its fault


def refused(path):
    """The faults of a file, found in time."""
    began = time.process_time()
    with pytest.raises(ProfileFaults) as theirs:
        load_profile(path)
    assert time.process_time() - began < LONGEST
    assert theirs.value.faults
    for fault in theirs.value.faults:
        assert len(fault.line()) < 2000
        assert fault.line().isprintable(), fault
    return theirs.value.faults


def written(folder, content):
    path = folder / "rig.toml"
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def test_a_sound_file_is_read_with_its_document(tmp_path):
    loaded = load_profile(written(tmp_path, SOUND))
    assert loaded.profile.rig.name == "sound"
    assert loaded.document["tank"][0]["length"] == "41 3/8 in"


def test_a_file_with_a_byte_order_mark_and_windows_line_ends_is_read(tmp_path):
    path = written(tmp_path, b"\xef\xbb\xbf" + SOUND.replace("\n", "\r\n").encode())
    assert load_profile(str(path)).profile.rig.name == "sound"


def test_what_is_no_file_is_said_to_be_none(tmp_path):
    (fault,) = refused(tmp_path / "nowhere.toml")
    assert (fault.path, fault.found) == ("", "no such file")
    assert fault.file.endswith("nowhere.toml")
    (fault,) = refused(tmp_path)
    assert fault.found == "a folder"
    os.mkfifo(tmp_path / "pipe")
    (fault,) = refused(tmp_path / "pipe")
    assert fault.found == "no plain file"
    (fault,) = refused(Path("/dev/zero"))
    assert fault.found == "no plain file"
    refused("a\0b.toml")
    refused("x" * 5000)
    (tmp_path / "loop.toml").symlink_to(tmp_path / "loop.toml")
    refused(tmp_path / "loop.toml")


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_file_that_may_not_be_read_is_said_to_be_so(tmp_path):
    path = written(tmp_path, SOUND)
    path.chmod(0)
    (fault,) = refused(path)
    assert "may not be read" in fault.found


def test_a_file_over_its_limit_is_refused_and_one_at_it_is_read(tmp_path):
    filler = SOUND.encode() + b"\n#" + b"x" * (LARGEST_FILE - len(SOUND.encode()) - 2)
    assert len(filler) == LARGEST_FILE
    assert load_profile(written(tmp_path, filler)).profile.rig.name == "sound"
    (fault,) = refused(written(tmp_path, filler + b"x"))
    assert fault.found == "more than 1 MiB"


def test_what_is_no_text_names_its_line(tmp_path):
    (fault,) = refused(written(tmp_path, SOUND.encode() + b'\n[note]\na = "\xff\xfe"\n'))
    assert fault.found == f"no UTF-8 in line {SOUND.count(chr(10)) + 3}"
    refused(written(tmp_path, b"\0\0\0"))
    refused(written(tmp_path, SOUND.encode("utf-16")))


def test_what_is_no_toml_names_its_line(tmp_path):
    (fault,) = refused(written(tmp_path, "format = 1\n[rig\nname = 1\n"))
    assert fault.path == ""
    assert "line 2" in fault.found
    (fault,) = refused(written(tmp_path, "format = 1\nformat = 1\n"))
    assert "line 2" in fault.found


HOSTILE = {
    "empty": "",
    "nested lists": "a = " + "[" * 500_000,
    "nested tables": "a = " + "{a = " * 200_000,
    "closed nested lists": "a = " + "[" * 300_000 + "]" * 300_000,
    "one key of many names": "a." * 400_000 + "a = 1",
    "one key of many quoted names": '"a".' * 200_000 + "a = 1",
    "one heading of many names": "[" + "a." * 400_000 + "a]",
    "many keys of seven names": "\n".join(f"a{n}.b.c.d.e.f.g = 1" for n in range(40_000)),
    "many keys of six names": "\n".join(f"a{n}.b.c.d.e.f = 1" for n in range(40_000)),
    "many headings": "[[tank]]\n" * 110_000,
    "many headings of one": "\n".join(f"[t{n}]" for n in range(90_000)),
    "many unknown keys": "[rig]\n" + "\n".join(f"kay{n} = 1" for n in range(80_000)),
    "long unknown keys": "[rig]\n" + "\n".join(f"{'k' * 2000}{n} = 1" for n in range(500)),
    "a number of many digits": "format = " + "9" * 900_000,
    "a hexadecimal of many digits": "format = 0x" + "f" * 900_000,
    "a long exponent": "format = 1e" + "9" * 900_000,
    "a long text": 'format = "' + "x" * 900_000 + '"',
    "many escapes": 'format = "' + "\\t" * 450_000 + '"',
    "an open text": 'format = """' + "x\n" * 400_000,
    "a list of many": "tank = [" + "1," * 400_000 + "]",
    "a list of many tables": "tank = [" + "{}," * 250_000 + "]",
    "one inline table of many": "tank = {" + ",".join(f"a{n}=1" for n in range(90_000)) + "}",
    "an inline table of long keys": "tank = {" + "a." * 400_000 + "a = 1}",
    "many bad quantities": "\n".join(f'[[tank]]\nid = "t{n}"\nlength = "{n} kg"' for n in range(20_000)),
    "many dots of a number": 'format = 1\n[design]\nlow = "' + "1" * 500_000 + ' degF"',
    "many signs of a length": '[[tank]]\nlength = "' + "1/" * 200_000 + 'in"',
}


@pytest.mark.parametrize("case", HOSTILE)
def test_a_file_made_to_hang_or_to_break_is_refused_in_time(tmp_path, case):
    content = HOSTILE[case].encode()
    assert len(content) <= LARGEST_FILE
    refused(written(tmp_path, content))


def test_dotted_words_within_a_text_or_a_comment_are_no_key(tmp_path):
    dotted = ".".join("abcdefghijklmnopqrst")
    told = SOUND.replace('name = "sound"', f'name = "sound" # {dotted}\nnote = "{dotted}"')
    assert load_profile(written(tmp_path, told)).profile.rig.note == dotted


ODD_TEXTS = [
    "[bold]x[/bold] [/x] [[tank]] {low} %s \\n",
    "\x1b[31mred\x1b[0m \x9b31m \x07 \x00",
    "\u202eback\u202c \u200bzero \u00adsoft \ufefffeff \u061c \u2066x\u2069",
    "'; DROP TABLE x; --",
    "../../etc/passwd",
    "e\u0301 a\u0308 क्ष",
]


@pytest.mark.parametrize("text", ODD_TEXTS)
def test_odd_texts_are_cleaned_and_are_text(tmp_path, text):
    from logic.data.clean_text import clean_text
    from logic.data.profile_write import profile_text

    document = {
        "format": 1,
        "rig": {"name": "n" + text, "kind": text, "note": text},
        "design": {"low": "0 degC"},
        "supply": {"chemistry": "agm", "capacity": "100 Ah"},
    }
    loaded = load_profile(written(tmp_path, profile_text(document)))
    assert loaded.profile.rig.kind == clean_text(text)
    assert loaded.profile.rig.name == loaded.document["rig"]["name"] == clean_text("n" + text)
    assert loaded.profile.rig.kind.isprintable()


@pytest.mark.parametrize("text", ODD_TEXTS)
def test_odd_texts_where_another_value_belongs_are_shown_clean(tmp_path, text):
    from logic.data.profile_write import profile_text

    document = {
        "format": text,
        "rig": {"name": "a", "units": text, text: text},
        "design": {"low": text, "hourly": text[:60]},
        "supply": {"chemistry": text, "capacity": text},
        "tank": [{"id": text, "length": text}],
        text: {},
    }
    paths = [fault.path for fault in refused(written(tmp_path, profile_text(document)))]
    assert {"format", "rig.units", "design.low", "design.hourly", "supply.chemistry", "tank[1].id"} <= set(
        paths
    )
