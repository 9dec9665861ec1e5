"""The fitting page at a glance: what it can be sifted by, with how many there are, and what leaves its range."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from coaching.fitting.row import FitRow
from coaching.fitting.together import Together
from coaching.fitting.together_form import TogetherForm

# What a coach can sift by, and in which order it is told. The codes are those of FitRow.kinds.
SIEVES: dict[str, Promise] = {
    "first": _("to look at first"),
    "out": _("exercise left out"),
    "pain": _("pain reported"),
    "limits": pgettext_lazy("sift", "limits"),
    "under": _("muscle under its floor"),
    "over": _("muscle over its ceiling"),
    "loses": _("substitute with a loss, or harder"),
    "gear": _("equipment not at hand"),
    "side": _("one side at a time"),
    "status": pgettext_lazy("sift", "training status"),
    "time": pgettext_lazy("sift", "time"),
    "first-time": _("first sessions, starting loads"),
    "changed": _("changed by you"),
    "rest": _("nothing to read"),
    "same": _("as written"),
}


@dataclass(frozen=True, slots=True)
class Sieve:
    code: str
    label: Promise
    count: int
    chosen: bool


@dataclass(frozen=True, slots=True)
class Summary:
    """Of all clients, whatever the page is sifted by. `differences` are proposals, `together` those of them that
    stand in a group; `out`, `under` and `over` name exercises and muscle groups with the number of clients."""

    clients: int
    same: int
    nothing: int
    first: int
    differences: int
    together: int
    groups: int
    out: list[tuple[str, int]]
    under: list[tuple[str, int]]
    over: list[tuple[str, int]]


# What the groups of one kind are headed by.
HEADS: dict[str, Promise] = {
    "limits": _("Kept from"),
    "gear": _("Equipment not at hand"),
    "status": _("Training status"),
    "time": _("Time"),
    "first-time": _("First sessions"),
}


@dataclass(frozen=True, slots=True)
class Headed:
    """Groups of one kind, each with its form: those to read, and those that only exchange like for like."""

    kind: str
    head: Promise
    telling: list[TogetherForm]
    plain: list[TogetherForm]


def headed(forms: Sequence[TogetherForm]) -> list[Headed]:
    """Return forms in their order under the heads of their kinds."""
    found = []
    for kind, head in HEADS.items():
        some = [one for one in forms if one.group.kind == kind]
        telling = [one for one in some if not one.group.plain or one.errors]
        found.append(Headed(kind, head, telling, [one for one in some if one not in telling]))
    return [one for one in found if one.telling or one.plain]


def sieves(rows: Sequence[FitRow], chosen: str) -> list[Sieve]:
    """Return what there is to sift by; what nobody has is left out, unless it was chosen."""
    count = Counter(kind for row in rows for kind in row.kinds)
    return [
        Sieve(code, label, count[code], code == chosen)
        for code, label in SIEVES.items()
        if count[code] or code == chosen
    ]


def sifted_rows(rows: Iterable[FitRow], chosen: str) -> list[FitRow]:
    """Return the rows of one kind (all without one), and one whose form is open; the most urgent first."""
    found = [replace(row, shown=chosen) for row in rows if not chosen or chosen in row.kinds or row.form]
    return sorted(found, key=lambda row: row.urgency)


def sifted_groups(groups: Iterable[Together], chosen: str) -> list[Together]:
    """Return the groups that belong to one kind; what is said of rows alone has none."""
    return [group for group in groups if not chosen or chosen in group.one.kinds]


def summary(rows: Sequence[FitRow], groups: Sequence[Together], names: dict[int, str]) -> Summary:
    out = Counter(names[one.proposal.exercise] for row in rows for one in row.said if one.out and one.proposal.exercise)
    leaves = {side: Counter[str]() for side in ("under", "over")}
    for row in rows:
        for group in row.leaves:
            leaves[group.standing][group.name] += 1
    return Summary(
        clients=len(rows),
        same=sum(not row.said for row in rows),
        nothing=sum(row.place == "rest" for row in rows),
        first=sum(row.first for row in rows),
        differences=sum(len(row.said) for row in rows),
        together=sum(len(member.differences) for group in groups for member in group.members),
        groups=len(groups),
        out=out.most_common(),
        under=leaves["under"].most_common(),
        over=leaves["over"].most_common(),
    )
