"""Read a page as a tree, and an answer to "why" as figures and tables, as a machine would."""

import re
from collections.abc import Iterator
from html.parser import HTMLParser

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
NUMBER = re.compile(r"[-−]?\d+(?:\.\d+)?")


class Node:
    def __init__(self, tag, attrs, parent):
        self.tag, self.attrs, self.parent, self.children = tag, dict(attrs), parent, []

    def walk(self) -> Iterator["Node"]:
        yield self
        for child in self.children:
            if isinstance(child, Node):
                yield from child.walk()

    def all(self, **attrs):
        """Nodes below with these attributes; None as a value asks only that it is there."""
        wanted = {name.replace("_", "-"): value for name, value in attrs.items()}
        tag = wanted.pop("tag", None)
        return [
            node
            for node in self.walk()
            if (tag is None or node.tag == tag)
            and all(name in node.attrs and value in (None, node.attrs[name]) for name, value in wanted.items())
        ]

    def near(self, name):
        """The attribute of this node or of the nearest one around it."""
        node = self
        while node is not None and name not in node.attrs:
            node = node.parent
        return node.attrs[name] if node is not None else None

    def text(self, without=()):
        """The text a reader sees; `without`: attributes whose nodes are left out."""
        if "sr-only" in (self.attrs.get("class") or "").split() or any(name in self.attrs for name in without):
            return ""
        return "".join(one if isinstance(one, str) else one.text(without) for one in self.children)

    def numbers(self):
        return NUMBER.findall(self.text())


class _Reader(HTMLParser):
    def __init__(self):
        super().__init__()
        self.at = self.root = Node("", (), None)

    def handle_starttag(self, tag, attrs):
        node = Node(tag, attrs, self.at)
        self.at.children.append(node)
        if tag not in VOID:
            self.at = node

    def handle_endtag(self, tag):
        node = self.at
        while node is not self.root and node.tag != tag:
            node = node.parent
        if node is not self.root:
            self.at = node.parent

    def handle_data(self, data):
        self.at.children.append(data)


def read(html):
    reader = _Reader()
    reader.feed(html)
    return reader.root


def value_of(text):
    """A machine value: a number where it is one, None where empty."""
    try:
        return float(text)
    except ValueError:
        return text or None


class Answer:
    """`figures` by name; `tables` by name, each a list of rows by column; `facts` are (name, value)."""

    def __init__(self, html):
        root = read(html)
        self.root = root
        self.figures = {one.attrs["data-answer"]: one.all(tag="data")[0] for one in root.all(data_answer=None)}
        self.tables = {}
        for table in root.all(data_table=None):
            keys = [one.attrs["data-key"] for one in table.all(tag="th", data_key=None)]
            rows = [row for row in table.all(tag="tr") if row.all(tag="td")]
            self.tables[table.attrs["data-table"]] = [
                {
                    key: value_of(cell.all(tag="data")[0].attrs["value"])
                    for key, cell in zip(keys, row.all(tag="td"), strict=True)
                }
                for row in rows
            ]
        lists = [one for one in root.all(tag="dl") if one.attrs.get("class") == "facts"]
        names, values = lists[0].all(tag="dt"), lists[0].all(tag="dd")
        self.facts = {a.text().strip(): b.text().strip() for a, b in zip(names, values, strict=True)}

    def rows(self, name):
        return self.tables.get(name, [])

    def fact(self, start):
        return next(value for name, value in self.facts.items() if name.startswith(start))
