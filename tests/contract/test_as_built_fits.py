"""A profile as built is always one that `check` accepts: what it can't have stays as planned, and is named."""

from tests.contract.headless import bellypan
from tests.independent.random_rigs import toml

RIG = {
    "format": 1,
    "rig": {"name": "flat"},
    "design": {"low": "10 degF"},
    "supply": {"chemistry": "lithium", "capacity": "200 Ah"},
    "tank": [
        {
            "id": "gray", "holds": "gray", "shape": "box", "length": "40 in", "width": "24 in", "height": "2 in",
            "place": "open", "outlet": {"x": "34 in", "y": "12 in", "diameter": "1 in"},
        },
    ],
}  # fmt: skip


def session_with(home, *readings):
    profile = home / "rig.toml"
    profile.write_text(toml(RIG), encoding="utf-8")
    session = bellypan("open", profile, "--new", home=home).output.strip()
    lines = "".join(f"tank.gray.{slot} {value}\n" for slot, value in readings)
    assert bellypan("read", session, "-", home=home, given=lines).code == 0
    return session


def written(home, session):
    out = home / "built.toml"
    done = bellypan("profile", session, "-o", out, home=home)
    assert done.code == 0, done
    assert bellypan("check", out).code in (0, 1)
    return done.errors, out.read_text(encoding="utf-8")


def test_an_outlet_read_at_the_corner_stays_as_planned(tmp_path):
    # a position of 0 may be read; in a profile an outlet lies over 0
    session = session_with(tmp_path, ("outlet.x", "0"))
    assert bellypan("read", session, "tank.gray.outlet.x", "0", "--again", home=tmp_path).code == 0
    told, text = written(tmp_path, session)
    assert "no profile has it so beside the rest: tank.gray.outlet.x" in told
    assert 'x = "34 in"' in text


def test_a_wall_that_only_a_height_not_yet_agreed_has_room_for_stays_as_planned(tmp_path):
    session = session_with(tmp_path, ("height", "3"), ("wall", "1 1/8"))
    told, text = written(tmp_path, session)
    assert "not yet agreed: tank.gray.height" in told
    assert "no profile has it so beside the rest: tank.gray.wall" in told
    assert "wall" not in text


def test_what_fits_is_written(tmp_path):
    session = session_with(tmp_path, ("wall", "3/16"))
    told, text = written(tmp_path, session)
    assert told == ""
    assert 'wall = "3/16 in"' in text
