"""Rules of energy: nights of the battery, the converter's load, cold lithium, cut-off, load not given."""

from logic.assessment.case import Case
from logic.assessment.findings.rule import Find, find, rule
from logic.assessment.supply_case import battery_degc
from logic.data.constants import CONVERTER_SHARE, CUTOFF_MARGIN, DISCHARGE_HOURS, FURNACE_BLOWER
from logic.data.profile import Supply
from logic.data.safe_sides import as_told
from logic.data.wording import at_least, at_most, quantity, words
from logic.physics.battery import temperature_factor

SAME = 1e-9
"""Numbers closer than this are one."""


@rule("battery", weight="use", per="supply", source="practice-battery-cold")
def battery_short_of_the_nights(case: Case, supply: Supply) -> Find | None:
    """The battery reaches its floor before the nights that are asked."""
    nights, night = case.value("supply.nights"), case.value("supply.night")
    asked = case.profile.design.nights
    if nights is None or night is None or nights >= asked - SAME:
        return None
    usable = case.value("supply.usable") or 0.0
    return find(
        text=words(
            "it lasts {nights} nights of the {asked} asked: {usable} usable, {night} in the worst 24 h",
            nights=as_told("supply.nights", nights, "number"),
            asked=quantity(asked, "count"),
            usable=as_told("supply.usable", usable, "charge"),
            night=as_told("supply.night", night, "charge"),
        ),
        remedy=words(
            "{capacity} of capacity for {asked} nights, or {charge} put back in each 24 h",
            capacity=at_least(capacity_for(case, supply, night_ah=night, nights=asked), "charge"),
            asked=quantity(asked, "count"),
            charge=at_least(max(night - usable / asked, 0.0), "charge"),
        ),
    )


def capacity_for(case: Case, supply: Supply, *, night_ah: float, nights: float) -> float:
    """Capacity at the 20 h rate that lasts some nights: by plain account or Peukert, the more. [Ah]"""
    factor = temperature_factor(supply.chemistry, battery_degc(case.profile))
    amps = night_ah / 24
    plain = night_ah * nights / (supply.usable * factor)
    if supply.peukert <= 1:
        return plain
    hours = nights * 24
    by_rate = (
        amps * DISCHARGE_HOURS / factor * (hours / (supply.usable * DISCHARGE_HOURS)) ** (1 / supply.peukert)
    )
    return max(plain, float(by_rate))


@rule("converter", weight="use", per="supply", source="practice-converter-80")
def converter_over_its_share(case: Case, supply: Supply) -> Find | None:
    """Everything on takes more of the converter's rating than it carries all night."""
    share = case.value("supply.converter")
    if share is None or supply.converter is None or share <= CONVERTER_SHARE + SAME:
        return None
    amps = share * supply.converter
    return find(
        text=words(
            "{amps} with everything on is {share} of its {rating}",
            amps=quantity(amps, "amps"),
            share=as_told("supply.converter", share, "share"),
            rating=quantity(supply.converter, "amps"),
        ),
        remedy=words(
            "one of {rating}, or {less} less on at once",
            rating=at_least(amps / CONVERTER_SHARE, "amps"),
            less=at_least(amps - CONVERTER_SHARE * supply.converter, "amps"),
        ),
    )


@rule("lithium-cold", weight="use", per="supply", source="practice-lithium-charging")
def lithium_charged_below_freezing(case: Case, supply: Supply) -> Find | None:
    """A lithium battery is below 0 °C; a note where its temperature is only the weather's mean."""
    degc = battery_degc(case.profile)
    if supply.chemistry != "lithium" or degc >= 0:
        return None
    given = supply.battery_degc is not None
    text = words("the battery is at {degc}", degc=quantity(degc, "temperature"))
    if not given:
        text = words(
            "the battery's place is not given; outdoors it is {degc} in the mean",
            degc=quantity(degc, "temperature"),
        )
    return find(
        text=text,
        remedy=words(
            "no charging below {zero}: {kelvin} warmer, by a heater or indoors, or a charger that waits",
            zero=quantity(0.0, "temperature"),
            kelvin=at_least(-degc, "difference"),
        ),
        weight=None if given else "note",
    )


@rule("cutoff", weight="use", per="supply", source="practice-cutoff-margin")
def cutoff_too_near_its_volts(case: Case, supply: Supply) -> Find | None:
    """The battery's own protection cuts off within 0.2 V of the volts under load: the heat stops with it."""
    if supply.cutoff is None or supply.volts > supply.cutoff + CUTOFF_MARGIN + SAME:
        return None
    return find(
        text=words(
            "it cuts off at {cutoff}; under load it stands at {volts}",
            cutoff=quantity(supply.cutoff, "volts"),
            volts=quantity(supply.volts, "volts"),
        ),
        remedy=words(
            "a cut-off below {least}, or a battery that stands above {most}",
            least=at_most(supply.volts - CUTOFF_MARGIN, "volts"),
            most=at_least(supply.cutoff + CUTOFF_MARGIN, "volts"),
        ),
    )


@rule("other-none", weight="note", per="supply", source="practice-other-load")
def other_load_not_given(case: Case, supply: Supply) -> Find | None:
    """The mean of all other load is left out and counts as nothing."""
    if supply.other is not None:
        return None
    return find(
        text=words("the other load is not given and counts as {none}", none=quantity(0.0, "amps")),
        remedy=words(
            "`other` with what else draws in the mean: a furnace's blower alone is about {blower}"
            " for nearly half the night",
            blower=quantity(FURNACE_BLOWER, "amps"),
        ),
    )
