"""What can be wrong with a session's file: its bytes, its layout, its records, or that it is no file at all.

Each function takes the file's text and a source of chance and gives another text. Nothing here knows what the
program makes of it; that stands in `session_files.py`.
"""

import json
import random
import re
from collections.abc import Callable
from typing import Any

import msgspec

from logic.session.seal import sealed
from tests.fuzz.hostile import text_of, value_of

RECORD = re.compile(rb'^("[0-9]+":)?(\{.*\})(,?)$')
STRANGE_TIMES = (-1.0, 0.0, 1e18, 4e9, 253_402_300_800.0, 1.7e12, "2026-01-05", None)
STRANGE_IDS = ("", "x", "../../etc", "0" * 12 + "-000-" + "0" * 8, "f" * 12 + "-fff-" + "f" * 8, 7, None)


# --- bytes ---


def cut(text: bytes, chance: random.Random) -> bytes:
    return text[: chance.randrange(len(text) + 1)]


def bits(text: bytes, chance: random.Random) -> bytes:
    turned = bytearray(text)
    for _ in range(chance.randint(1, 4) if turned else 0):
        turned[chance.randrange(len(turned))] ^= 1 << chance.randrange(8)
    return bytes(turned)


def put_in(text: bytes, chance: random.Random) -> bytes:
    """Bytes that are no UTF-8, NULs, line ends, half a record: in the middle of it."""
    at = chance.randrange(len(text) + 1)
    more = chance.choice(
        (b"\x00" * 7, b"\xff\xfe", b"\xc3\x28", b"\xed\xa0\x80", b"\n", b"\r", b"{", b'"', b"}\n{", b"\n\n\n")
    )
    return text[:at] + more + text[at:]


def twice(text: bytes, chance: random.Random) -> bytes:
    """A stretch of it once more, elsewhere."""
    begin, end = sorted(chance.randrange(len(text) + 1) for _ in range(2))
    at = chance.randrange(len(text) + 1)
    return text[:at] + text[begin:end] + text[at:]


def coded(text: bytes, chance: random.Random) -> bytes:
    plain = text.decode("utf-8", "replace")
    return chance.choice(
        (plain.encode("utf-16"), b"\xef\xbb\xbf" + text, plain.replace("\n", "\r\n").encode(), text[::-1])
    )


def nothing_of_it(_: bytes, chance: random.Random) -> bytes:
    return chance.choice(
        (
            b"", b"\n", b"{}", b"[]", b"null", b"0", b'"text"', b"\x00" * 4096, b"[" * 100_000, b'{"a":' * 50_000,
            b'{"meta":{},"profile":{},"events":{}}', b'{"meta":{"1":{}},"profile":{"1":{}},"events":{}}',
            b'{"_default":{"1":{"a":1}}}', b"\n" * 300_000, b'{"meta":{"1":{"format":1}},"meta":{}}', b"NaN",
            b'{"journal":1}\n', b'{"journal":9,"session":"x"}\n' * 3, b"1" * 100_000, b"-" * 1000,
        )
    )  # fmt: skip


# --- lines ---


def reordered(text: bytes, chance: random.Random) -> bytes:
    """Lines in another order, doubled, left out."""
    lines = text.split(b"\n")
    draw = chance.random()
    if draw < 0.3:
        chance.shuffle(lines)
    elif draw < 0.6:
        lines.insert(chance.randrange(len(lines)), chance.choice(lines))
    else:
        del lines[chance.randrange(len(lines))]
    return b"\n".join(lines)


def record_changed(text: bytes, chance: random.Random) -> bytes:
    """One record says something else: sealed anew, without its seal, or with the old one."""
    lines = text.split(b"\n")
    places = [place for place, line in enumerate(lines) if RECORD.match(line)]
    if not places:
        return text
    place = chance.choice(places)
    match = RECORD.match(lines[place])
    assert match is not None
    try:
        record = json.loads(match[2])
    except (ValueError, RecursionError):
        return text
    seal = record.pop("sum", None)
    in_si = json.dumps(record.get("si"))
    changed = _changed(record, chance)
    how = chance.random()
    if isinstance(changed, dict) and json.dumps(changed.get("si")) != in_si:
        how = 0.6 + how / 3  # a seal says that this program worked the SI out: it isn't forged here
    if how >= 0.8 and isinstance(changed, dict):
        changed["sum"] = seal
    raw = json.dumps(changed, separators=(",", ":"), ensure_ascii=chance.random() < 0.5)
    line = raw.encode("utf-8", "surrogatepass")
    if how < 0.6 and line.startswith(b"{") and len(line) > 2:
        line = sealed(line)
    if chance.random() < 0.1:
        line = line.replace(b'{"', b'{"id":"other","', 1)  # a key twice
    lines[place] = (match[1] or b"") + line + match[3]
    return b"\n".join(lines)


def _changed(record: Any, chance: random.Random) -> Any:
    """A record with something in it replaced, removed, added, or moved in time."""
    draw = chance.random()
    if draw < 0.15 and "id" in record:
        record["id"] = chance.choice((*STRANGE_IDS, record["id"][:-1] + "f"))
        return record
    if draw < 0.3 and "at" in record:
        record[chance.choice(("at", "offset", "begun", "last"))] = chance.choice(STRANGE_TIMES)
        return record
    if draw < 0.35:
        return value_of(chance)
    holder: Any = record
    while isinstance(holder, dict | list):
        keys = list(holder) if isinstance(holder, dict) else list(range(len(holder)))
        if not keys:
            return record
        key = chance.choice(keys)
        if isinstance(holder[key], dict | list) and holder[key] and chance.random() < 0.7:
            holder = holder[key]
            continue
        if chance.random() < 0.7:
            holder[key] = value_of(chance)
        elif chance.random() < 0.5:
            del holder[key]
        elif isinstance(holder, dict):
            holder[text_of(chance)] = value_of(chance)
        return record
    return record


def events_added(text: bytes, chance: random.Random) -> bytes:
    """More events at the end of the journal or of the table: of odd kinds, old, from the future, the same ids."""
    lines = []
    for number in range(chance.randint(1, 5)):
        fields = {name: value_of(chance) for name in _FIELDS if chance.random() < 0.6}
        at = chance.choice((0.0, 1e9, 1.9e9, 4e9, 2.5e11))
        event = {
            "id": f"{int(at * 1000):012x}-{number:03x}-{chance.randrange(1 << 32):08x}",
            "at": at,
            "offset": chance.choice((0, -3600, 64_800, -64_800, 64_801)),
            "by": text_of(chance),
            "what": {"kind": chance.choice(_KINDS), **fields},
        }
        raw = json.dumps(event, separators=(",", ":")).encode()
        lines.append(sealed(raw) if chance.random() < 0.8 else raw)
    if text.startswith(b'{"journal"'):
        return text.rstrip(b"\n") + b"\n" + b"\n".join(lines) + b"\n"
    numbered = [b',\n"%d":%s' % (9000 + number, line) for number, line in enumerate(lines)]
    return re.sub(rb"\n\}\}\n$", b"".join(numbered).replace(b"\\", b"\\\\") + b"\n}}\n", text)


_KINDS = (
    "session-begun", "tape-set", "reading-taken", "reading-struck", "reading-moved", "readings-swapped",
    "step-started", "step-done", "step-held", "step-skipped", "step-overruled", "step-recorded", "item-written",
    "item-done", "item-accepted", "finding-accepted", "day-begun", "day-ended", "note-written", "part-ticked",
    "sheet-made", "profile-changed", "part-added", "part-removed", "undone", "dreamt", "",
)  # fmt: skip
_FIELDS = (
    "rig", "resolution", "slot", "typed", "value", "unit", "over", "reading", "to", "first", "second", "step",
    "note", "recorded", "name", "gate", "reason", "text", "weight", "place", "item", "finding", "stop_at", "part",
    "ticked", "length", "path", "part_kind", "id", "event", "also",
)  # fmt: skip


def laid_out(text: bytes, chance: random.Random) -> bytes:
    """The same document as another program lays it out, in parts said otherwise; of a journal, its lines."""
    try:
        whole = json.loads(text)
    except (ValueError, RecursionError):
        return text
    if not isinstance(whole, dict):
        return text
    draw = chance.random()
    if draw < 0.4:
        whole = _changed(whole, chance)
    elif draw < 0.6:
        whole["more"] = {"1": {"kept": [1, {"a": None}]}}
    return json.dumps(whole, indent=chance.choice((None, 1, 4)), ensure_ascii=chance.random() < 0.5).encode(
        "utf-8", "surrogatepass"
    )


def format_raised(text: bytes, chance: random.Random) -> bytes:
    """What a newer version would write."""
    number = chance.choice((b"0", b"2", b"-1", b"99999999999999999999", b'"1"', b"1.0", b"null"))
    changed = re.sub(rb'"(format|journal)":1\b', rb'"\1":' + number, text, count=1)
    return re.sub(rb"^.*$", lambda line: _resealed(line[0]), changed, flags=re.MULTILINE)


def _resealed(line: bytes) -> bytes:
    match = RECORD.match(line)
    if match is None or b'"si":' in line or not (b'"format"' in line or b'"journal"' in line):
        return line
    try:
        record = msgspec.json.decode(match[2])
    except (msgspec.DecodeError, UnicodeDecodeError):
        return line
    record.pop("sum", None)
    return (match[1] or b"") + sealed(msgspec.json.encode(record)) + match[3]


DAMAGES: tuple[Callable[[bytes, random.Random], bytes], ...] = (
    cut, bits, put_in, twice, coded, nothing_of_it, reordered, record_changed, record_changed, record_changed,
    events_added, events_added, laid_out, format_raised,
)  # fmt: skip
