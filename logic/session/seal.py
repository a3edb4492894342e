"""The check that each record carries, so that a torn or damaged one is recognised.

A record is a JSON object in its compact form; its last field is `sum`, the CRC-32 of the object without it.
CRC-32 finds every single flipped bit and every burst of up to 32 bits; it is no signature. A record without
a `sum` (written by hand, or by a plain TinyDB) can't be checked and is taken as it is.
"""

import zlib

import msgspec

_FIELD = b',"sum":"'
SEAL_LENGTH = len(_FIELD) + 8 + len(b'"}')


def sealed(record: bytes) -> bytes:
    """`{…}` → `{…,"sum":"1a2b3c4d"}`. The record is a compact JSON object with a field at least."""
    return b'%s,"sum":"%08x"}' % (record[:-1], zlib.crc32(record))


def is_sealed(record: bytes) -> bool:
    """Whether the record has a seal where this program puts it."""
    return record[-SEAL_LENGTH:].startswith(_FIELD)


def is_object(record: bytes) -> bool:
    """Whether the record is a JSON object at all: a seal can be put on anything."""
    try:
        return isinstance(msgspec.json.decode(record), dict)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError):
        return False


def seal_holds(record: bytes) -> bool:
    """Whether the record is what its `sum` was made from; True also where it has none.

    Raises nothing. Only the bytes are looked at where the seal stands in its place: see `is_object`.
    """
    tail = record[-SEAL_LENGTH:]
    if tail.startswith(_FIELD) and tail == b'%s%s"}' % (_FIELD, sum_of(record[:-SEAL_LENGTH]).encode()):
        return True
    return _holds_respaced(record)


def sum_of(unclosed: bytes) -> str:
    """The `sum` of a record whose last brace is left out."""
    return f"{zlib.crc32(b'}', zlib.crc32(unclosed)):08x}"


def _holds_respaced(record: bytes) -> bool:
    """The same for a record that another program wrote with other spaces or escapes."""
    try:
        fields = msgspec.json.decode(record)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError):
        return False
    if not isinstance(fields, dict):
        return False
    if "sum" not in fields:
        return True
    said = fields.pop("sum")
    return said == f"{zlib.crc32(msgspec.json.encode(fields)):08x}"
