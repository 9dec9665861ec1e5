"""Random programs, with everything that a document can hold, for the tests of files."""

from itertools import count

from hypothesis import strategies as st

from programs.document import limits
from programs.document.model import Block, Day, Document, Ramp, RampRule, Slot, Week

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
def documents(draw, ramps=True):
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
            **more,
        )

    def week(of_ramp):
        days = tuple(
            Day(key(), draw(TEXTS), tuple(slot(of_ramp) for _ in range(draw(st.integers(0, 3)))))
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
