"""Events read many at once come to what their lines come to one by one, and a log gives back what was put in."""

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from logic.data.events import Event, NoteWritten, PartAdded, ProfileChanged, ReadingTaken
from logic.session import event_block
from logic.session.document import EVENTS, numbered, tables_text
from logic.session.event_block import read_table
from logic.session.event_lines import event_line, read_line, read_records
from logic.session.event_log import EventLog, of_kinds
from logic.session.seal import sealed
from tests.properties.event_strategies import START, build, histories

# What may stand between lines of ours: of a newer version, by hand, laid out by another program, damaged.
STRANGE = (
    sealed(b'{"gone":"fishing"}'),
    b'{"id": "019b8d2b8c00-000-c73f45cd", "at": 1.0, "what": {"kind": "note-written", "text": "x"}}',
    sealed(
        b'{"id":"019b8d2b8c00-001-c73f45cd","at":1.0,"offset":0,"by":"A","what":{"kind":"dreamt"},"more":7}'
    ),
    sealed(
        b'{"id":"019b8d2b8c00-002-c73f45cd","at":1.0,"offset":0,"by":"A\\u001b[2J",'
        b'"what":{"kind":"note-written","text":" a"}}'
    ),
    sealed(b'{"id":"019b8d2b8c00-003-c73f45cd","at":1e999,"offset":0,"by":"A","what":{"kind":"day-ended"}}'),
    sealed(b'{"id":"no id","at":1.0,"offset":0,"by":"A","what":{"kind":"day-ended"}}'),
    b'{"id":"019b8d2b8c00-004-c73f45cd","at":1.0,"offset":0,"by":"A","what":{"kind":"day-ended"},"sum":"00000000"}',
)


@pytest.fixture(autouse=True)
def short_blocks(monkeypatch):
    monkeypatch.setattr(event_block, "_BLOCK", 600)


def table_of(records: list[bytes]) -> tuple[bytes, int, int]:
    """A text with a table of events, and where its lines stand."""
    text = tables_text({EVENTS: numbered(records)})
    start = text.index(b"{\n") + 2
    return text, start, text.rindex(b"\n}")


def what(read) -> tuple:
    return list(read.events), read.strangers, read.broken


@given(histories(most=40), st.lists(st.tuples(st.integers(0, 40), st.sampled_from(STRANGE)), max_size=3))
def test_blocks_are_what_their_lines_are(events, strange):
    records = [event_line(event) for event in events]
    for place, record in strange:
        records.insert(place, record)
    assert what(read_table(*table_of(records))) == what(read_records(records))


@given(histories(most=12), st.data())
def test_of_a_changed_byte_blocks_say_what_lines_say(events, data):
    text, start, end = table_of([event_line(event) for event in events])
    place = data.draw(st.integers(start, max(start, end - 1)))
    text = text[:place] + bytes([data.draw(st.integers(0, 255))]) + text[place + 1 :]
    read = read_table(text, start, end)
    lines = [line.removesuffix(b",").partition(b":") for line in text[start:end].split(b"\n") if line]
    if read is not None:
        assert what(read) == what(read_records([record for _, _, record in lines]))


@pytest.mark.parametrize("numbers", ["1 1 2", "2 1 3", "0 1 2", "1 02 3 2"])
def test_where_numbers_do_not_rise_the_whole_is_left_to_be_read_by_line(numbers):
    line = event_line(build([(0, 1, 0, 0, False)], ("aaaaaaaa", "bbbbbbbb"))[0])
    text = b",\n".join(b'"%s":%s' % (number.encode(), line) for number in numbers.split())
    assert read_table(text, 0, len(text)) is None


def test_a_value_of_a_profile_holds_no_more_than_itself():
    edits = [ProfileChanged("a", msgspec.Raw(b'"b"')), PartAdded("tank", msgspec.Raw(b'{"id":"c"}'))]
    events = [
        Event(f"019b8d2b8c00-00{n}-c73f45cd", START, 0, "Ann", payload) for n, payload in enumerate(edits)
    ]
    read = read_table(*table_of([event_line(event) for event in events]))
    changed, added = (event.payload for event in read.events)
    assert bytes(changed.value) == b'"b"'
    assert bytes(added.part) == b'{"id":"c"}'
    # a raw value that still lies in what was decoded is copied; one that is by itself is the same object again
    assert changed.value.copy() is changed.value
    assert added.part.copy() is added.part


# --- the log ---


@given(histories())
def test_a_log_gives_back_the_events_put_in(events):
    log = EventLog(events)
    assert log == events
    assert list(reversed(log)) == events[::-1]
    assert [log[place] for place in range(len(events))] == events
    assert log[2:5] == events[2:5]
    assert of_kinds(log, NoteWritten) == [one for one in events if isinstance(one.payload, NoteWritten)]
    more = EventLog()
    for event in events:
        more.append(event)
    more += events
    assert more == events * 2
    assert more != log or not events


def test_an_event_with_more_than_its_reading_says_stays_as_it_came():
    record = msgspec.json.decode(event_line(Event("019b8d2b8c00-000-c73f45cd", START, 0, "Ann", READING)))
    del record["sum"]
    record["what"]["height"] = 7
    line = sealed(msgspec.json.encode(record))
    (event,) = EventLog([read_line(line)])
    assert event.payload == READING
    assert event_line(event) == line


READING = ReadingTaken("tank.gray.length", "38 1/2", 0.9779, "in", 0.0015875, saw_first=True)
