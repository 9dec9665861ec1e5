"""Whatever is edited, logged, brought and taken back, in any order: what someone did or is doing does not change."""

from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.django import TestCase

from programs.document import EditError, document_from_json, labels
from programs.document.adapt import Change, adapt
from programs.document.edits import Operation
from programs.document.find import places
from programs.document.model import Block, Day, Slot, Week
from programs.services.adaptation_undo import adaptation_undo
from programs.services.adaptations import Adapted, changes_of
from programs.services.fit_again import copy_fit_again
from programs.services.program_write import program_edit
from programs.services.revision_undo import UndoError, revision_undo
from tests.conftest import make_world
from tests.programs.revision_fixture import begin, log_set, make_gym, rows_of

NUMBER = st.integers(0, 40)
EDIT = st.sampled_from(
    ["remove", "remove-day", "remove-week", "copy-day", "copy-week", "nudge-week", "nudge-day", "add-slot", "move-slot",
     "swap", "pair", "prescribe", "mark-deload", "add-day"]
)  # fmt: skip
STEPS = st.lists(
    st.tuples(
        st.one_of(EDIT, EDIT, st.sampled_from(["log", "run", "bring", "bring", "undo", "decide", "fit", "unfit"])),
        NUMBER,
        NUMBER,
    ),
    min_size=2,
    max_size=14,
)


def operation(gym, name, first, second):
    """Speak of parts that are there; a number picks one."""
    doc = document_from_json(gym.program.document)
    keys = {kind: [p.node.key for p in places(doc) if isinstance(p.node, kind)] for kind in (Block, Week, Day, Slot)}

    def one(kind, number=first):
        return keys[kind][number % len(keys[kind])] if keys[kind] else "none"

    exercises = [gym.library.curl, gym.library.push, gym.library.hammer, gym.library.row]
    exercise = exercises[second % 4].pk
    params = {
        "remove": ("remove", {"key": one(Slot)}),
        "remove-day": ("remove", {"key": one(Day)}),
        "remove-week": ("remove", {"key": one(Week)}),
        "copy-day": ("copy", {"key": one(Day)}),
        "copy-week": ("copy", {"key": one(Week)}),
        "nudge-week": ("nudge", {"key": one(Week), "by": second % 5 - 2}),
        "nudge-day": ("nudge", {"key": one(Day), "by": second % 3 - 1}),
        "add-slot": ("add-slot", {"day": one(Day), "exercise": exercise}),
        "move-slot": ("move-slot", {"slot": one(Slot), "day": one(Day, second), "index": second}),
        "swap": ("swap", {"slot": one(Slot), "exercise": exercise}),
        "pair": ("pair", {"slot": one(Slot)}),
        "prescribe": ("prescribe", {"slot": one(Slot), "sets": str(second % 5 + 1)}),
        "mark-deload": ("mark-deload", {"week": one(Week), "deload": bool(second % 2)}),
        "add-day": ("add-day", {"week": one(Week)}),
    }[name]
    return Operation(*params)


def edit(gym, name, first, second):
    base = {"program": gym.program, "user": gym.coach, "base_version": gym.program.version}
    try:
        program_edit(**base, operation=operation(gym, name, first, second))
    except EditError:
        return
    gym.program.refresh_from_db()


def logged(gym):
    """What every session says in which something is logged, or whose day is over."""
    rows = rows_of(gym.assignment)
    past = gym.assignment.sessions.filter(date__lt=gym.today).values_list("pk", flat=True)
    begun = gym.assignment.sessions.filter(performed__isnull=False).values_list("pk", flat=True)
    return {key: rows[key] for key in {*past, *begun}}


def fit(gym, first, second):
    """Add one difference, in place of an earlier one where the second number is even."""
    gym.assignment.refresh_from_db()
    lib = gym.library
    keys = [p.node.key for p in places(document_from_json(gym.program.document)) if isinstance(p.node, Slot)]
    some = frozenset(keys[first % len(keys) :: 2]) if keys else frozenset()
    changes = [
        Change("swap", lib.curl.pk, lib.hammer.pk),
        Change("swap", lib.curl.pk, lib.row.pk, slots=some),
        Change("leave-out", lib.row.pk),
        Change("leave-out", lib.curl.pk),
        Change("rir", rir=1),
        Change("scale", factor=0.5),
        Change("fewer", slots=some, less=1),
        Change("careful", slots=some, rir=2),
    ]
    standing = list(gym.assignment.adaptations.filter(undone_at=None).values_list("pk", flat=True))
    copy_fit_again(
        assignment=gym.assignment,
        version=gym.assignment.program_version,
        standing=standing,
        adapted=[Adapted(changes[first % len(changes)], "fit_status_rir")],
        back=standing[-1:] if second % 2 == 0 else (),
        by=gym.coach,
    )


def step(gym, name, first, second):
    if name in ("log", "run"):
        free = list(gym.assignment.sessions.filter(performed=None, cancelled_at=None))
        if free:
            planned = free[first % len(free)]
            session = begin(planned, finished=name == "log")
            if rows := list(planned.slots.all()):
                log_set(session, rows[second % len(rows)])
    elif name == "decide":
        free = list(gym.assignment.sessions.filter(performed=None, cancelled_at=None, date__gte=gym.today))
        if free:
            free[first % len(free)].slots.filter(position=1).update(sets=second % 3 + 7)
            gym.decided = True
    elif name == "bring":
        gym.bring()
    elif name == "fit":
        fit(gym, first, second)
    elif name == "unfit":
        standing = list(gym.assignment.adaptations.filter(undone_at=None))
        if standing:
            adaptation_undo(adaptation=standing[first % len(standing)], user=gym.coach)
    elif name == "undo":
        revision = gym.assignment.revisions.filter(undone_at=None).first()
        try:
            revision_undo(revision=revision, user=gym.coach) if revision else None
        except UndoError:
            return
        gym.assignment.refresh_from_db()
    else:
        edit(gym, name, first, second)


class AnyOrder(TestCase):
    @settings(deadline=None, max_examples=40)
    @given(STEPS)
    def test_a_revision_never_alters_a_logged_or_running_session(self, steps):
        gym = make_gym(make_world(), weeks=3)
        for one in steps:
            before = logged(gym)
            step(gym, *one)
            after = logged(gym)
            assert {key: after[key] for key in before} == before

    @settings(deadline=None, max_examples=25)
    @given(st.lists(st.tuples(EDIT, NUMBER, NUMBER), min_size=1, max_size=6), st.lists(NUMBER, max_size=2))
    def test_every_open_session_then_says_what_the_program_says(self, edits, begun):
        gym = make_gym(make_world(), weeks=3)
        for number in begun:
            step(gym, "log", number, number)
        for part in (edits[:3], edits[3:]):
            for one in part:
                edit(gym, *one)
            gym.bring()
        check_open(gym)

    @settings(deadline=None, max_examples=25)
    @given(
        st.lists(
            st.tuples(st.sampled_from(["fit", "fit", "unfit", "prescribe", "bring", "log"]), NUMBER, NUMBER), max_size=7
        )
    )
    def test_every_open_session_then_says_what_the_program_and_the_differences_say(self, steps):
        gym = make_gym(make_world(), weeks=3)
        for one in steps:
            step(gym, *one)
        gym.bring()
        check_open(gym, changes_of(gym.assignment.adaptations.all()))


def check_open(gym, changes=()):
    document = adapt(document_from_json(gym.program.document), changes)
    wanted = {place.node.key: place for place in places(document) if isinstance(place.node, Day)}
    untouched = gym.assignment.sessions.filter(performed=None, date__gte=gym.today)
    for planned in untouched.filter(cancelled_at=None).prefetch_related("slots"):
        place = wanted[planned.day_key]
        assert (planned.week_number, planned.day_number) == (place.week_number, place.number)
        assert planned.is_deload == place.week.deload
        assert [one.slot_key for one in planned.slots.all()] == [one.key for one in place.node.slots]
        for number, (row, one, mark) in enumerate(
            zip(planned.slots.all(), place.node.slots, labels(place.node.slots), strict=True), 1
        ):
            assert (row.position, row.exercise_id, row.sets, row.pair) == (number, one.exercise, one.sets[1], mark)
    days = list(gym.assignment.sessions.values_list("day_key", flat=True))
    assert len(days) == len(set(days))
    gone = untouched.exclude(cancelled_at=None)
    assert not [one for one in gone if one.day_key in wanted and wanted[one.day_key].node.slots]
