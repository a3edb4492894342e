"""Reads a sheet's page by tags, as a browser would: what is open must be closed in its turn."""

from html.parser import HTMLParser

VOID = {"meta", "col", "br", "rect", "line", "circle", "polyline", "polygon"}
RUNS_OR_LOADS = {"script", "iframe", "link", "img", "object", "embed", "form", "a", "base", "foreignObject"}


class Page(HTMLParser):
    """A page that was read: its tags and attributes, its text, and its tables by caption."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.words: list[str] = []
        self.tables: dict[str, list[list[str]]] = {}
        self._rows: list[list[str]] = []
        self._caption = ""
        self.feed(text)
        self.close()
        assert self.open == []

    @property
    def text(self) -> str:
        """All that is shown, with plain spaces."""
        return " ".join(self.words).replace("\u00a0", " ")

    def handle_starttag(self, tag, attrs):
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}
        if tag in VOID:
            return
        self.open.append(tag)
        if tag == "table":
            self._rows, self._caption = [], ""
        elif tag == "tr":
            self._rows.append([])
        elif tag in ("td", "th"):
            self._rows[-1].append("")

    def handle_startendtag(self, tag, attrs):
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}

    def handle_endtag(self, tag):
        assert self.open.pop() == tag
        if tag == "table":
            self.tables.setdefault(self._caption, []).extend(self._rows)

    def handle_data(self, data):
        if "style" in self.open:
            return
        self.words.append(data)
        if "td" in self.open or "th" in self.open:
            self._rows[-1][-1] += data.replace("\u00a0", " ")
        elif "caption" in self.open:
            self._caption += data


def sections_of(page: str) -> dict[str, str]:
    """The page's sections by title, each as its own HTML."""
    parts = page.split("<h2>")[1:]
    return {
        part.partition("</h2>")[0]: part.partition("</h2>")[2].partition("</section>")[0] for part in parts
    }
