"""Why a typed value isn't taken: what was found, what is expected, two examples, and what would do."""

from logic.data.clean_text import short_text


class TapeFault(ValueError):
    """A typed value that is refused, never guessed.

    found : what was typed, unprintable characters taken out, shortened where it is long.
    expected : what is wrong with it or what is wanted, in words.
    examples : two values that the slot takes.
    normal_forms : what may have been meant, each typed properly; none where nothing can be offered.
    question : two whole lines to choose from, where the screen may ask (a comma as decimal mark).
    """

    def __init__(
        self,
        found: str,
        expected: str,
        *,
        examples: tuple[str, str],
        normal_forms: tuple[str, ...] = (),
        question: tuple[str, ...] = (),
    ) -> None:
        self.found = short_text(found)
        self.expected = expected
        self.examples = examples
        self.normal_forms = normal_forms
        self.question = tuple(short_text(meaning) for meaning in question)
        super().__init__(self.sentence())

    def sentence(self) -> str:
        """All of it in one line."""
        typed = f"{self.found}: " if self.found else ""
        choices = self.question or self.normal_forms
        meant = f"; meant {' or '.join(choices)}?" if choices else "."
        return f"{typed}{self.expected}{meant} For example {self.examples[0]} or {self.examples[1]}"


class GrammarFault(Exception):
    """A fault found inside the grammar, not yet bound to a slot; `tape.py` turns it into a TapeFault."""

    def __init__(self, expected: str, normal_forms: tuple[str, ...] = ()) -> None:
        self.expected = expected
        self.normal_forms = normal_forms
        super().__init__(expected)
