"""Random programs, with everything that a document can hold, for the tests of files."""

from itertools import count

from hypothesis import strategies as st

from programs.document import limits
from programs.document.model import Block, Day, Document, Ramp, RampRule, Slot, Week
from programs.exchange.own import CHOICES, GRADES, KINDS, SECONDS

EXERCISES = {1: "curl", 2: "row", 3: "own/arms-special"}
# Also what looks like a formula, a range, another script; no halves of characters, no zero byte: no database has them.
TEXTS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00"), max_size=12) | st.sampled_from(
    ["=1+1", "'=x", "+5", "8-12", "Käsekuchen", "", "”", "a;b,c\td", "日本"]
)


def ranges(bounds):
    return st.tuples(st.integers(*bounds), st.integers(*bounds)).map(lambda ends: (min(ends), max(ends)))


@st.composite
def rules(draw, sets=limits.SETS, names_sets=True):
    start = draw(st.none() | st.integers(*sets)) if names_sets else None
    peak = draw(st.integers(start or sets[0], sets[1])) if start or (names_sets and draw(st.booleans())) else None
    first, last = draw(ranges(limits.RIR))
    rir = (last, first) if draw(st.booleans()) else None
    return RampRule(start, peak, rir, draw(st.sampled_from([0, 2.5, 5])))


@st.composite
def documents(draw, ramps=True, sides=True):
    """Without `ramps` and `sides`: what a spreadsheet can hold."""
    numbers = count(1)

    def key():
        return f"k{next(numbers)}"

    def slot(of_ramp):
        more = {}
        if of_ramp:
            more = {"origin": draw(st.sampled_from(["", "k1"])), "by_hand": draw(st.booleans())}
            more |= {"load_pct": draw(st.sampled_from([0, 102.5, 105])), "group": draw(st.sampled_from(["", "arms"]))}
        return Slot(
            key(),
            draw(st.sampled_from(sorted(EXERCISES))),
            draw(st.sampled_from(["", "A", "B"])),
            draw(ranges(limits.SETS)),
            draw(ranges(limits.REPS)),
            draw(ranges(limits.RIR)),
            draw(st.integers(*limits.REST_S)),
            draw(TEXTS)[: limits.TEMPO],
            draw(TEXTS),
            weaker_first=draw(st.booleans()) if sides else False,
            **more,
        )

    def week(of_ramp):
        days = tuple(
            Day(
                key(),
                draw(TEXTS),
                tuple(slot(of_ramp) for _ in range(draw(st.integers(0, 3)))),
                draw(st.sampled_from(["", "k1"])) if of_ramp else "",
            )
            for _ in range(draw(st.integers(0, 2)))
        )
        return Week(key(), draw(st.booleans()), draw(TEXTS), days, of_ramp and draw(st.booleans()))

    def block():
        ramped = ramps and draw(st.booleans())
        weeks = tuple(week(ramped) for _ in range(draw(st.integers(2 if ramped else 0, 3))))
        if not ramped:
            return Block(key(), draw(TEXTS), weeks)
        base = week(True)
        keys = [one.key for day in base.days for one in day.slots][:1]
        ramp = Ramp(
            base,
            draw(st.booleans()),
            draw(rules(names_sets=False)),
            (("arms", draw(rules(limits.GROUP_SETS))),),
            tuple((one, draw(rules())) for one in keys),
        )
        return Block(key(), draw(TEXTS), weeks, ramp)

    return Document(tuple(block() for _ in range(draw(st.integers(0, 2)))))


SLUGS = st.sampled_from(["elbow-flexion", "own/yard-bar", "barbell", "biceps-long"])
LINES = st.lists(TEXTS, max_size=2)
SHARES = st.sampled_from([0.25, 0.5, 1])


@st.composite
def abouts(draw):
    """Draw what a file says of the program around its blocks."""
    return {
        "name": draw(TEXTS).strip() or "Arms",
        "note": draw(TEXTS),
        "written_for": draw(st.sampled_from(["novice", "intermediate", "advanced"])),
        "weekdays": draw(st.lists(st.integers(0, 6), unique=True, max_size=7)),
    }


@st.composite
def definitions(draw):
    """Draw an own exercise as a file tells it; whether it makes sense is not asked here."""
    return {
        "equipment": draw(SLUGS),
        "actions": draw(st.lists(SLUGS, max_size=2)),
        "limits": draw(st.lists(SLUGS, max_size=2)),
        "limits_judged": draw(st.booleans()),
        **{name: draw(st.sampled_from(allowed)) for name, allowed in CHOICES.items()},
        "body_share": draw(SHARES),
        "compound": draw(st.booleans()),
        "set_up": draw(TEXTS),
        "cues": draw(LINES),
        "cautions": draw(LINES),
        **{name: draw(st.integers(*bounds)) for name, bounds in SECONDS.items()},
        "credits": draw(st.dictionaries(SLUGS, SHARES, max_size=2)),
        "long_heads": draw(st.lists(SLUGS, max_size=2)),
        "long_by": draw(st.dictionaries(SLUGS, SLUGS, max_size=2)),
        "grades": {name: [draw(st.integers(1, 5)), draw(TEXTS)] for name in GRADES},
    }


@st.composite
def equipments(draw):
    """Draw own equipment; its loads are read by others."""
    ladder = st.fixed_dictionaries({"kind": st.just("list"), "loads": st.lists(SHARES, max_size=2)})
    return {
        "name": draw(TEXTS).strip() or "Yard bar",
        "kind": draw(st.sampled_from(KINDS)),
        "ladder": draw(ladder),
        "ladder_lb": draw(st.none() | ladder),
    }
