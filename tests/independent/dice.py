"""Chance for random rigs: quantities as people write them, in one system of units or the other."""

import random


class Dice(random.Random):
    """A seeded generator that writes quantities; `metric` says in which units."""

    metric = False

    def maybe(self, chance):
        return self.random() < chance

    def length(self, least, most):
        """A length between two, in inches; [text]"""
        inches = self.uniform(least, most)
        if self.metric:
            return self.choice(
                [f"{inches * 25.4:.1f} mm", f"{inches * 2.54:.2f} cm", f"{inches * 0.0254:.4f} m"]
            )
        sixteenths = round(inches * 16)
        whole, rest = divmod(sixteenths, 16)
        if self.maybe(0.5) and whole and rest % 2:
            feet, whole_inches = divmod(whole, 12)
            plain = f"{whole} {rest}/16 in"
            return (
                self.choice(
                    [
                        plain,
                        f"{whole}-{rest}/16 in",
                        f"{feet} ft {whole_inches} {rest}/16 in",
                        f"{feet}ft {whole_inches}-{rest}/16in",
                    ]
                )
                if feet and whole_inches
                else plain
            )
        return f"{inches:.3f} in"

    def exact(self, inches):
        """A length to a thousandth of an inch, or of a millimetre."""
        return f"{inches * 25.4:.3f} mm" if self.metric else f"{inches:.3f} in"

    def route(self, feet):
        return f"{feet * 0.3048:.2f} m" if self.metric else f"{feet:g} ft"

    def area(self, square_feet):
        return (
            f"{square_feet * 0.09290304:.3f} {self.choice(['m²', 'm2'])}"
            if self.metric
            else f"{square_feet:.1f} {self.choice(['ft²', 'ft2'])}"
        )

    def temperature(self, fahrenheit):
        if self.metric:
            return f"{(fahrenheit - 32) / 1.8:.2f}{self.choice([' degC', ' °C', '°C'])}"
        return f"{fahrenheit:.1f} {self.choice(['degF', '°F'])}"

    def resistance(self, least, most):
        value = self.uniform(least, most)
        return f"{value * 0.1761:.3f} {self.choice(['m²K/W', 'm2K/W'])}" if self.metric else f"R {value:.2f}"

    def speed(self, mph):
        return (
            self.choice([f"{mph * 1.609344:.1f} km/h", f"{mph * 0.44704:.2f} m/s"])
            if self.metric
            else f"{mph:g} mph"
        )

    def some(self, table, chance=0.5):
        """Some of a table's entries; the rest is left to the defaults."""
        return {key: value for key, value in table.items() if self.maybe(chance)}
