"""A cold spell, solved by events: no time step, so no step error.

Between a weather knot, a thermostat's switching and a change of phase the balance C dT/dt = −G (T − T_eff)
+ W has an exact solution, for T_eff is a straight line there. Only the instant of an event is searched for.
Most hours hold none, and bounds at the hour's ends tell so without a search: an hour then costs a few
multiplications.
"""

from math import exp, expm1, inf, isfinite, log, sqrt

from logic.data.constants import ICE_HEAT, LATENT_HEAT, WATER_HEAT
from logic.physics.spell_parts import ICE, LIQUID, MUSH, Piece, Spell, SpellHeater, SpellState
from logic.physics.spell_roots import crossing, parabola_root

MOST_EVENTS, MOST_EVENTS_PER_KNOT = 5_000, 50
"""More events than these together are no spell of a tank: a thermostat that chatters on a few drops."""


class TooManyEvents(ArithmeticError):
    """So little liquid for so much heat that its thermostats would switch for ever."""


def start_state(degc: float, heaters: tuple[SpellHeater, ...]) -> SpellState:
    """The state of contents that begin at a temperature: liquid at 0 °C and above, ice below it.

    A thermostat is off until the contents are below its `on`.
    """
    return SpellState(
        phase=LIQUID if degc >= 0 else ICE,
        degc=degc,
        on=tuple(heater.on_degc is None or degc < heater.on_degc for heater in heaters),
    )


def cold_spell(
    seconds: tuple[float, ...],
    effective_degc: tuple[float, ...],
    *,
    mass: float,
    conductance: float,
    heaters: tuple[SpellHeater, ...],
    start: SpellState,
    trace: bool = False,
) -> Spell:
    """Contents through a cold spell, exact but for rounding.

    seconds : knots of the weather, rising [s]. effective_degc : T_eff at them, linear between [°C].
    mass : of the contents, > 0 [kg]. conductance : > 0, the same in liquid, mush and ice [W/K].
    heaters : their `on` over 0 °C and under their `off`. start : at the first knot. trace : keep the pieces.
    Raises ValueError: what isn't so, or isn't finite; TooManyEvents: over 5,000 and 50 for each knot.

    Method: on a piece T = a + b t + c e^(−kt), in the mush H is a parabola. A piece has one extremum at
    most; where the drive on the contents keeps its sign there is none, and the ends bound the piece. An
    event's instant is the root of that formula: Newton's steps within a shrinking bracket, to 1e-15 of the
    piece; in the mush a quadratic. Ice counts from the moment that the contents reach 0 °C with the heat
    still leaving. Memory is flat in the length of the series but for the instants of switching, and the
    pieces where they are asked for. Model `job-heat`: stirred contents, water's properties `iapws-95`,
    `iapws-06`. Uncertainty: the band on G.
    """
    _check(seconds, effective_degc, mass=mass, conductance=conductance, heaters=heaters)
    return _Solver(mass, conductance, heaters, start, trace=trace).run(seconds, effective_degc)


class _Solver:
    """One run: the contents as they are at the moment, and the account of what happened to them."""

    def __init__(
        self,
        mass: float,
        conductance: float,
        heaters: tuple[SpellHeater, ...],
        start: SpellState,
        *,
        trace: bool,
    ) -> None:
        self.conductance = conductance
        self.heaters = heaters
        self.latent = mass * LATENT_HEAT
        self.rates = {LIQUID: conductance / (mass * WATER_HEAT), ICE: conductance / (mass * ICE_HEAT)}
        self.phase = start.phase
        self.degc = 0.0 if start.phase == MUSH else start.degc
        self.heat_left = start.heat_left
        self.on = list(start.on)
        self.on_since: list[float] = []
        self.on_times: list[list[tuple[float, float]]] = [[] for _ in heaters]
        self.pieces: list[Piece] | None = [] if trace else None
        self.lowest = self.degc
        self.least_liquid = self.latent if start.phase == LIQUID else start.heat_left  # J above all ice
        self.ice_since: float | None = None
        self.ice_seconds = 0.0
        self.switchings = 0
        self.events = self.most_events = 0

    # --- the knots ---

    def run(self, seconds: tuple[float, ...], effective: tuple[float, ...]) -> Spell:
        begin = seconds[0]
        self.most_events = MOST_EVENTS + MOST_EVENTS_PER_KNOT * len(seconds)
        self.on_since = [begin] * len(self.heaters)
        if self.phase != LIQUID:
            self.ice_since = begin
        if self.phase == ICE:
            self.least_liquid = 0.0
        self._settle()
        knot = 0
        last = len(seconds) - 1
        while knot < last:
            if self.phase == MUSH:
                knot = self._mush_hours(seconds, effective, knot)
            else:
                knot = self._quiet_hours(seconds, effective, knot)
            if knot < last:
                self._eventful_piece(seconds[knot], seconds[knot + 1], effective[knot], effective[knot + 1])
                knot += 1
        return self._account(begin, seconds[last])

    def _quiet_hours(self, seconds: tuple[float, ...], effective: tuple[float, ...], knot: int) -> int:
        """Go on from knot to knot while the ends of a piece rule an event out; the knot where they don't."""
        rate, lift, low, high = self.rates[self.phase], self.lift, self.low, self.high
        degc, lowest, pieces = self.degc, self.lowest, self.pieces
        length = keep = to_first = to_last = by_heat = -1.0
        now, here = seconds[knot], effective[knot]
        drive = here + lift - degc
        last = len(seconds) - 1
        while knot < last:
            then, there = seconds[knot + 1], effective[knot + 1]
            if then - now != length:
                # the solution at the piece's end is keep·T + to_first·T_eff + to_last·T_eff' + by_heat
                length = then - now
                keep = exp(-rate * length)
                gone = -expm1(-rate * length)
                share = gone / (rate * length)
                to_first, to_last, by_heat = share - keep, 1.0 - share, gone * lift
            new = keep * degc + to_first * here + to_last * there + by_heat
            new_drive = there + lift - new
            if not low <= new <= high or drive * new_drive < 0.0:
                break
            if pieces is not None:
                self._keep_piece(now, length, degc, here + lift, (there - here) / length)
            if new < lowest:
                lowest = new
            degc, drive, now, here = new, new_drive, then, there
            knot += 1
        self.degc, self.lowest = degc, lowest
        return knot

    def _mush_hours(self, seconds: tuple[float, ...], effective: tuple[float, ...], knot: int) -> int:
        """The same in the mush: heat comes and goes by a parabola, and no thermostat can switch."""
        conductance, lift, latent = self.conductance, self.lift, self.latent
        heat_left, least = self.heat_left, self.least_liquid
        last = len(seconds) - 1
        while knot < last:
            length = seconds[knot + 1] - seconds[knot]
            drive, new_drive = effective[knot] + lift, effective[knot + 1] + lift
            new = heat_left + conductance * (drive + new_drive) / 2 * length
            if not 0.0 <= new <= latent or drive * new_drive < 0.0:
                break
            if self.pieces is not None:
                self.heat_left = heat_left
                self._keep_piece(seconds[knot], length, 0.0, drive, (new_drive - drive) / length)
            if new < least:
                least = new
            heat_left = new
            knot += 1
        self.heat_left, self.least_liquid = heat_left, least
        return knot

    # --- a piece that may hold events ---

    def _eventful_piece(self, start: float, end: float, here: float, there: float) -> None:
        """From one knot to the next by as many events as there are."""
        slope = (there - here) / (end - start)
        now = start
        while now < end:
            effective = here + slope * (now - start)
            length = end - now
            if self.phase == MUSH:
                now = self._to_mush_event(now, length, effective + self.lift, slope)
            else:
                now = self._to_switching(now, length, effective + self.lift, slope)

    def _to_switching(self, now: float, length: float, drive: float, slope: float) -> float:
        """Liquid or ice up to its next event, or to the end of the piece: the instant reached."""
        rate, degc, low, high = self.rates[self.phase], self.degc, self.low, self.high
        fade = degc - drive + slope / rate
        new = degc + slope * length + fade * expm1(-rate * length)
        pull, new_pull = drive - degc, drive + slope * length - new
        if pull == 0.0:
            pull = slope
        turn = length
        turned = new
        if pull * new_pull < 0.0 and slope != 0.0 and fade * rate / slope > 1.0:
            turn = min(log(fade * rate / slope) / rate, length)
            turned = drive + slope * turn  # there the contents stand at what they make for
        for begin, stop, value in ((0.0, turn, turned), (turn, length, new)):
            if stop <= begin and begin > 0.0:
                continue
            target = low if value < low else high if value > high else None
            if target is None:
                self.lowest = min(self.lowest, value)
                continue
            moment = crossing(degc - target, begin, stop, slope=slope, fade=fade, rate=rate)
            self._keep_piece(now, moment, degc, drive, slope)
            self.degc = target
            self.lowest = min(self.lowest, target)
            self._cross(target, now + moment, falling=target == low)
            return now + moment
        self._keep_piece(now, length, degc, drive, slope)
        self.degc = new
        return now + length

    def _to_mush_event(self, now: float, length: float, drive: float, slope: float) -> float:
        """Mush up to all ice or all liquid, or to the end of the piece: the instant reached."""
        conductance, latent, left = self.conductance, self.latent, self.heat_left
        new = left + conductance * (drive + slope * length / 2) * length
        pull, new_pull = (drive or slope), drive + slope * length
        turn, turned = length, new
        if pull * new_pull < 0.0 and drive != 0.0:
            turn = -drive / slope
            turned = left + conductance * drive * turn / 2
        for begin, stop, value in ((0.0, turn, turned), (turn, length, new)):
            if stop <= begin and begin > 0.0:
                continue
            target = 0.0 if value < 0.0 else latent if value > latent else None
            if target is None:
                self.least_liquid = min(self.least_liquid, value)
                continue
            if begin == 0.0:
                moment = parabola_root((target - left) / conductance, drive, slope)
            else:
                moment = turn + sqrt(2.0 * (target - turned) / (conductance * slope))
            moment = min(max(moment, begin), stop)
            self._keep_piece(now, moment, 0.0, drive, slope)
            self.least_liquid = min(self.least_liquid, target)
            self.heat_left = target
            self._change_phase(ICE if target == 0.0 else LIQUID, now + moment)
            return now + moment
        self._keep_piece(now, length, 0.0, drive, slope)
        self.heat_left = new
        return now + length

    # --- events ---

    def _cross(self, degc: float, now: float, *, falling: bool) -> None:
        """The contents pass a threshold: heaters switch, or the phase changes."""
        self.events += 1
        if self.events > self.most_events:
            raise TooManyEvents(f"over {self.most_events} events")
        if degc == 0.0 and (self.phase == ICE or falling):
            self.heat_left = self.latent if self.phase == LIQUID else 0.0
            self._change_phase(MUSH, now)
            return
        for which, heater in enumerate(self.heaters):
            if falling and not self.on[which] and heater.on_degc == degc:
                self.on[which] = True
                self.on_since[which] = now
                self.switchings += 1
            elif not falling and self.on[which] and heater.off_degc == degc:
                self.on[which] = False
                self.on_times[which].append((self.on_since[which], now))
                self.switchings += 1
        self._settle()

    def _change_phase(self, phase: int, now: float) -> None:
        if phase == LIQUID and self.ice_since is not None:
            self.ice_seconds += now - self.ice_since
            self.ice_since = None
        elif self.phase == LIQUID:
            self.ice_since = now
        self.phase = phase
        self.degc = 0.0
        self._settle()

    def _settle(self) -> None:
        """What the heaters lift, and between which temperatures nothing happens."""
        heat = 0.0
        low, high = (0.0, inf) if self.phase == LIQUID else (-inf, 0.0)
        for heater, on in zip(self.heaters, self.on, strict=True):
            if on:
                heat += heater.heat
                if heater.off_degc is not None and heater.off_degc < high:
                    high = heater.off_degc
            elif heater.on_degc is not None and heater.on_degc > low:
                low = heater.on_degc
        self.heat = heat
        self.lift = heat / self.conductance
        self.low, self.high = low, high

    # --- the account ---

    def _keep_piece(self, now: float, length: float, degc: float, drive: float, slope: float) -> None:
        if self.pieces is None or length <= 0.0:
            return
        self.pieces.append(
            Piece(
                start=now,
                length=length,
                phase=self.phase,
                degc=degc,
                heat_left=self.heat_left,
                drive=drive,
                slope=slope,
                rate=self.rates.get(self.phase, 0.0),
                conductance=self.conductance,
                heat=self.heat,
                on=tuple(self.on),
            )
        )

    def _account(self, begin: float, end: float) -> Spell:
        ice_seconds = self.ice_seconds + (end - self.ice_since if self.ice_since is not None else 0.0)
        for which, on in enumerate(self.on):
            if on and end > self.on_since[which]:
                self.on_times[which].append((self.on_since[which], end))
        return Spell(
            length=end - begin,
            lowest_degc=self.lowest,
            ice_seconds=ice_seconds,
            ice_share=min(max(1.0 - self.least_liquid / self.latent, 0.0), 1.0),
            on_times=tuple(tuple(times) for times in self.on_times),
            switchings=self.switchings,
            end=SpellState(self.phase, self.degc, self.heat_left, tuple(self.on)),
            pieces=tuple(self.pieces or ()),
        )


def _check(
    seconds: tuple[float, ...],
    effective_degc: tuple[float, ...],
    *,
    mass: float,
    conductance: float,
    heaters: tuple[SpellHeater, ...],
) -> None:
    if not seconds or len(seconds) != len(effective_degc):
        raise ValueError(f"{len(seconds)} knots with {len(effective_degc)} temperatures")
    if not (isfinite(mass) and mass > 0 and isfinite(conductance) and conductance > 0):
        raise ValueError(f"a mass of {mass} kg with {conductance} W/K")
    if not isfinite(sum(effective_degc)):
        raise ValueError("a temperature that isn't finite")
    for heater in heaters:
        if not isfinite(heater.heat) or heater.heat < 0:
            raise ValueError(f"a heater of {heater.heat} W")
        if heater.on_degc is not None and not 0 < heater.on_degc < (heater.off_degc or 0):
            raise ValueError(
                f"a thermostat that comes on at {heater.on_degc} and goes off at {heater.off_degc} °C"
            )
