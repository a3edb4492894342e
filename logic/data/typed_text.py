"""What a person typed, said again later: a bare number with the unit in which it was read."""


def typed_with_unit(typed: str, unit: str) -> str:
    """`41 3/8` → `41 3/8 in`; what names its unit, or is over the meter's range, stays as it was typed."""
    return f"{typed} {unit}" if unit and typed[-1:].isnumeric() else typed
