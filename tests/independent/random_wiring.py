"""Runs by chance: trees, borrowed returns, chassis, fuses given and left out, bundles of all sizes."""

GIVEN = (18, 16, 14, 12, 10, 8, 8, 6, 4)
MOST_AUTO = 4  # each is tried in every gauge: 4,096 networks where no choice will do
FUSES = ("auto", "none", "1 A", "5 A", "7.5 A", "10 A", "15 A", "20 A", "30 A", "50 A", "100 A")


def add_wiring(dice, document):
    heaters = [one["id"] for one in document["heater"]]
    fed = [one for one in heaters if dice.maybe(0.95)]
    wiring = Wiring(dice)
    if fed:
        count = min(len(fed), dice.randint(1, 4))
        tree(dice, wiring, [fed[n::count] for n in range(count)])
        if dice.maybe(0.05):
            crowd(wiring, document)
    if dice.maybe(0.2):
        dice.shuffle(wiring.runs)
    document["run"] = wiring.runs


class Wiring:
    """The runs so far."""

    def __init__(self, dice):
        self.dice, self.runs, self.autos = dice, [], 0

    def add(self, from_, feeds, back="own"):
        dice, name = self.dice, f"run-{len(self.runs)}"
        made = {
            "id": name,
            "from": from_,
            "length": dice.route(dice.choice([0, 1, 2, 6, 9.5, 14, 20, 30, 55])),
        }
        auto = self.autos < MOST_AUTO and dice.maybe(0.5)
        self.autos += auto
        made |= {"gauge": "auto" if auto else f"{dice.choice(GIVEN)} AWG", "back": back}
        if back == "chassis" and dice.maybe(0.5):
            made["chassis"] = dice.choice(["2 mΩ", "8 mohm", "20 mΩ", "0.004 ohm", "0.05 Ω"])
        if feeds:
            made["feeds"] = feeds
        given = {
            "fuse": dice.choice(FUSES),
            "switch": f"{dice.choice([5, 10, 15])} A",
            "fuse_at": dice.length(5, 25),
            "outside": dice.length(0.1, 0.2),
            "colour": dice.choice(["blue", "yellow", "[red]"]),
        }
        made |= dice.some(given, 0.3)
        if dice.maybe(0.6):
            made["bundle"] = f"loom-{dice.randrange(2)}"
        self.runs.append(made)
        return name

    def lender(self):
        """A run that a new one may borrow from: any that borrows nothing itself."""
        lenders = [one["id"] for one in self.runs if one["back"] in ("own", "chassis")]
        return self.dice.choice(lenders) if lenders else "own"


def tree(dice, wiring, groups):
    """A feed or none, and a run for each group from the supply, the feed or any run before it."""
    roots = ["supply"]
    if dice.maybe(0.6):
        roots = [wiring.add("supply", [], dice.choice(["own", "own", "chassis"]))]
    for group in groups:
        from_ = dice.choice([*roots, *roots, *(one["id"] for one in wiring.runs)])
        wiring.add(from_, group, dice.choice(["own", "own", "chassis", wiring.lender()]))


def crowd(wiring, document):
    """A bundle of more conductors than any sleeve takes: a dozen runs, each with a small heater of its own."""
    tank = document["tank"][0]["id"]
    for n in range(12):
        heater = {
            "id": f"small-{n}",
            "on": tank,
            "watts": "5 W",
            "length": "100 mm",
            "width": "50 mm",
            "face": "side",
        }
        document["heater"].append(heater)
        run = {
            "id": f"thin-{n}",
            "from": "supply",
            "length": "2 m",
            "gauge": "18 AWG",
            "feeds": [heater["id"]],
        }
        wiring.runs.append({**run, "back": "own", "bundle": "crowd"})
