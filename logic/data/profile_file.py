"""A profile's file to a checked profile; one of the few modules that read a disk.

The file may be anything at all: a folder, a pipe, no text, a text made to hang a parser. Each is a fault in
words.
"""

import stat
import tomllib
from pathlib import Path
from typing import Any

import msgspec

from logic.data.clean_text import clean_text, short_text
from logic.data.faults import ProfileFault, ProfileFaults
from logic.data.hourly_file import read_hourly_beside
from logic.data.profile import Profile
from logic.data.profile_check import check_document
from logic.data.profile_keys import SECTIONS, Key
from logic.data.toml_guard import has_endless_key

LARGEST_FILE = 1024 * 1024  # bytes


class LoadedProfile(msgspec.Struct, frozen=True):
    """A profile, and the raw document that it came from, its texts cleaned."""

    profile: Profile
    document: dict[str, Any]


def load_profile(path: str | Path) -> LoadedProfile:
    """The profile in a file. Raises ProfileFaults, and no other error for anything that a file may hold."""
    place = Path(path)
    document = read_document(place)
    profile = check_document(document, file=str(path), hourly=lambda name: read_hourly_beside(place, name))
    return LoadedProfile(profile, clean_document(document))


def read_document(path: Path) -> dict[str, Any]:
    """The raw document of a TOML file.

    Raises ProfileFaults: not there, no plain file, too large, no UTF-8, no TOML.
    """
    return parse_document(_text_of(path), file=str(path))


def parse_document(text: str, *, file: str) -> dict[str, Any]:
    """The raw document of a text in TOML. Raises ProfileFaults."""
    if has_endless_key(text):
        raise _fault(file, found="a key of more than six dotted names", expected="a key of a profile")
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _fault(file, found=f"no TOML: {_toml_words(error)}", expected="a profile in TOML") from None
    except RecursionError:
        raise _fault(file, found="tables nested without end", expected="a profile in TOML") from None
    except ValueError:
        raise _fault(file, found="a number too long to read", expected="a profile in TOML") from None


def _toml_words(error: tomllib.TOMLDecodeError) -> str:
    said = short_text(str(error), limit=200)
    return said[:1].lower() + said[1:]


def _text_of(path: Path) -> str:
    file = str(path)
    try:
        kind = path.stat()
        if stat.S_ISDIR(kind.st_mode):
            raise _fault(file, found="a folder", expected="a file in TOML")
        if not stat.S_ISREG(kind.st_mode):
            raise _fault(file, found="no plain file", expected="a file in TOML")
        with path.open("rb") as stream:
            raw = stream.read(LARGEST_FILE + 1)
    except ProfileFaults:  # one of ours, said already
        raise
    except FileNotFoundError:
        raise _fault(file, found="no such file", expected="a profile in TOML") from None
    except PermissionError:
        raise _fault(file, found="a file that may not be read", expected="a profile in TOML") from None
    except (OSError, ValueError) as error:  # a name that the system doesn't take, a disk at fault
        reason = short_text(getattr(error, "strerror", None) or str(error))
        raise _fault(
            file, found=f"a file that can't be read ({reason})", expected="a profile in TOML"
        ) from None
    if len(raw) > LARGEST_FILE:
        raise _fault(file, found="more than 1 MiB", expected="a profile of up to 1 MiB")
    try:
        return raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise _fault(file, found=f"no UTF-8 in line {line}", expected="a profile in UTF-8") from None


def _fault(file: str, *, found: str, expected: str) -> ProfileFaults:
    return ProfileFaults([ProfileFault(short_text(file, limit=300), "", found, expected)])


def clean_document(document: dict[str, Any]) -> dict[str, Any]:
    """A copy of a document with its free texts cleaned, all else as it was written, sound or not."""
    cleaned = dict(document)
    for section in SECTIONS:
        stated = document.get(section.name)
        if isinstance(stated, list):
            cleaned[section.name] = _clean_tables(stated, section.keys)
        elif isinstance(stated, dict):
            cleaned[section.name] = _clean_table(stated, section.keys)
    return cleaned


def _clean_tables(stated: list[Any], keys: tuple[Key, ...]) -> list[Any]:
    return [_clean_table(table, keys) if isinstance(table, dict) else table for table in stated]


def _clean_table(table: dict[str, Any], keys: tuple[Key, ...]) -> dict[str, Any]:
    cleaned = dict(table)
    for key in keys:
        stated = table.get(key.name)
        if key.kind == "text" and isinstance(stated, str):
            cleaned[key.name] = clean_text(stated)
        elif key.kind == "table" and isinstance(stated, dict):
            cleaned[key.name] = _clean_table(stated, key.keys)
        elif key.kind == "tables" and isinstance(stated, list):
            cleaned[key.name] = _clean_tables(stated, key.keys)
    return cleaned
