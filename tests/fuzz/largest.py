"""The largest inputs that the format lets through, and some that it doesn't."""

import random


def largest_profile(
    *, tanks: int = 100, back: str = "own", chained: bool = False, gauge: str = "auto"
) -> str:
    """A hundred of each part (`tanks` of tanks), fifty keep-outs a tank, sixty nights.

    back : own | chassis | borrowed. chained : each run from the one before it, all on one fuse.
    """
    lines = ["format = 1", '[rig]\nname = "largest"', '[design]\nlow = "-12 degF"\nnights = 60']
    lines += ['[supply]\nchemistry = "agm"\ncapacity = "10000 Ah"']
    lines += [
        f'[[bay]]\nid = "bay-{n}"\narea = "900 ft²"\nfloor = "R 7"\npan = "R 4"'
        for n in range(min(tanks, 100))
    ]
    keepouts = ", ".join(
        f'{{ x = "{5 + 2 * n} in", y = "{7 * n % 60} in", length = "1 in", width = "1 in" }}'
        for n in range(50)
    )
    for n in range(tanks):
        lines += [
            f'[[tank]]\nid = "tank-{n}"\nholds = "gray"\nshape = "box"\nlength = "300 in"\nwidth = "80 in"',
            f'height = "9 in"\nplace = "bay-{n}"\nkeepout = [{keepouts}]',
            'outlet = { x = "150 in", y = "40 in", diameter = "3 in" }',
        ]
    for n in range(100):
        lines += [
            f'[[heater]]\nid = "heater-{n}"\non = "tank-{n % tanks}"\nwatts = "60 W"\nlength = "18 in"',
            f'width = "12 in"\nface = "bottom"\nthermostat = {{ on = "{40 + n % 10} degF", off = "60 degF" }}',
            f'[[drain]]\nid = "drain-{n}"\ntank = "tank-{n % tanks}"\noutside = "3.5 in"\ninside = "3.07 in"',
            'length = "18 in"',
        ]
    for n in range(100):
        lines += [
            f'[[run]]\nid = "run-{n}"\nlength = "{5 + n % 40} ft"\nfeeds = ["heater-{n}"]\ngauge = "{gauge}"'
        ]
        lines += [f'from = "{f"run-{n - 1}" if chained and n else "supply"}"\nbundle = "b{n % 5}"']
        if back == "chassis":
            lines += ['back = "chassis"']
        elif back == "borrowed" and n % 3:
            lines += [f'back = "run-{n - n % 3}"']
        if chained and n:
            lines += ['fuse = "none"']
    return "\n".join(lines)


def crowded_profile(*, marked_out: bool) -> str:
    """A hundred pads of a hundred sizes on one bottom with fifty keep-outs: most find no place on it.

    marked_out : each stands where it is told to, over others.
    """
    chance = random.Random(5)
    keepouts = ", ".join(
        f'{{ x = "{chance.uniform(0, 290):.2f} in", y = "{chance.uniform(0, 78):.2f} in", '
        f'length = "{chance.uniform(0.2, 4):.2f} in", width = "{chance.uniform(0.2, 4):.2f} in" }}'
        for _ in range(50)
    )
    lines = ['format = 1\n[rig]\nname = "crowded"\n[design]\nlow = "-12 degF"']
    lines += ['[supply]\nchemistry = "agm"\ncapacity = "10000 Ah"\n[[tank]]\nid = "t"\nholds = "gray"']
    lines += ['shape = "box"\nlength = "300 in"\nwidth = "80 in"\nheight = "9 in"\nplace = "open"']
    lines += [f'keepout = [{keepouts}]\noutlet = {{ x = "150 in", y = "40 in", diameter = "3 in" }}']
    for n in range(100):
        lines += [f'[[heater]]\nid = "h{n}"\non = "t"\nwatts = "60 W"\nface = "bottom"']
        lines += [f'length = "{chance.uniform(16, 60):.2f} in"\nwidth = "{chance.uniform(10, 30):.2f} in"']
        if marked_out:
            x, y = chance.uniform(0, 240), chance.uniform(0, 50)
            lines += [f'at = {{ x = "{x:.2f} in", y = "{y:.2f} in" }}']
        lines += [f'[[run]]\nid = "r{n}"\nfrom = "supply"\nlength = "{5 + n % 9} ft"\nfeeds = ["h{n}"]']
    return "\n".join(lines)


BAD_TOML = {
    "deep arrays": "a = " + "[" * 200_000,
    "deep tables": "a = " + "{b=" * 150_000,
    "dotted without end": "a" + ".a" * 300_000 + " = 1",
    "many headers": "".join(f"[t{n}]\n" for n in range(120_000)),
    "a huge integer": "format = 1\n[rig]\nname = " + "9" * 900_000,
    "a hex integer": "format = 0x" + "f" * 900_000,
    "two to the sixty-third": 'format = 9223372036854775808\n[rig]\nname = "x"',
    "a float beyond": 'format = 1\n[rig]\nname = "x"\n[supply]\nusable = 1e400',
    "a long string": 'format = 1\n[rig]\nname = "' + "x" * 1_000_000 + '"',
    "a long key": "x" * 1_000_000 + " = 1",
    "an open string": 'a = """' + "\\" * 1_000_000,
    "dates": "a = [" + "2026-01-01T00:00:00Z, " * 45_000 + "]",
    "many unknown keys": "format = 1\n" + "".join(f"k{n} = {n}\n" for n in range(80_000)),
    "many parts": "".join(f'[[tank]]\nid = "t{n}"\n' for n in range(40_000)),
    "many keep-outs": '[[tank]]\nid = "t"\nkeepout = [' + "{}, " * 250_000 + "]",
    "over a mebibyte": "#" + "x" * (1 << 20),
}


def hourly_rows(count: int, *, digits: int = 2) -> str:
    """Rows five minutes apart, warm and cold by turns."""
    from datetime import datetime, timedelta

    first = datetime(2026, 1, 1)
    return "time,temperature_degC\n" + "\n".join(
        f"{(first + timedelta(minutes=5 * n)).isoformat()},{(n * 37 % 400) / 10 - 25:.{digits}f}"
        for n in range(count)
    )
