"""Why a group, muscle or head has so many hard sets in a week, and how the week's sets were sorted."""

from collections.abc import Callable
from typing import Any

from django.http import Http404
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from coaching.models import WeekSummary
from coaching.why.answer import Answer, Cell, Column, Figure, Table, number, shown, words
from coaching.why.kept import SIDES
from coaching.why.kept_rows import KeptSet, KeptSlot, kept_sets, kept_slots
from coaching.why.links import Reader
from coaching.why.weeks import Names, names, said, week_row
from periodization.dose import RULE as DOSE
from periodization.dose import weekly_volume
from periodization.rules import Rule
from periodization.targets import RULE as TARGETS
from periodization.targets import spread_on
from programs.models import Head, Muscle, MuscleGroup
from programs.sentences import in_words
from programs.services.targets import PRIORITIES, priority_for

# Does a head with (credit, muscle, group) belong to what is asked about?
Belongs = Callable[[str, Any], bool]
EFFORT_ERROR = gettext_noop(
    "A set's RIR is a report; near the limit it errs by one repetition or two (Hackett et al. 2017), so a set can "
    "fall on "
    "either side of it. The credits of indirect work are a convention with a spread of opinion behind it."
)


def group(reader: Reader, monday: str, slug: str) -> Answer:
    """Answer for a muscle group's week, with its range."""
    summary = week_row(reader, monday)
    row = summary.volume["groups"].get(slug)
    if row is None:
        raise Http404
    name = MuscleGroup.objects.filter(slug=slug).values_list("name", flat=True).first() or slug
    return _answer(reader, summary, name, row, lambda _head, share: share[2] == slug, group_slug=slug)


def head(reader: Reader, monday: str, slug: str) -> Answer:
    """Answer for one head of a muscle."""
    summary = week_row(reader, monday)
    one = Head.objects.filter(slug=slug).first()
    if one is None:
        raise Http404
    row = summary.volume["heads"].get(slug, {"planned": 0.0, "done": 0.0})
    return _answer(reader, summary, one.name, row, lambda key, _share: key == slug)


def muscle(reader: Reader, monday: str, slug: str) -> Answer:
    """Answer for one muscle, of which a set counts once, at the largest credit among its heads."""
    summary = week_row(reader, monday)
    one = Muscle.objects.filter(slug=slug).first()
    if one is None:
        raise Http404
    row = summary.volume["muscles"].get(slug, {"planned": 0.0, "done": 0.0})
    return _answer(reader, summary, one.name, row, lambda _head, share: share[1] == slug)


def _answer(
    reader: Reader, summary: WeekSummary, name: str, row: dict[str, Any], belongs: Belongs, group_slug: str = ""
) -> Answer:
    inputs = summary.inputs
    limit = inputs["rir_limit"]
    credit = {
        int(key): max((share[0] for slug, share in heads.items() if belongs(slug, share)), default=0.0)
        for key, heads in inputs["credits"].items()
    }
    sets = [one for one in kept_sets(inputs) if credit[one.exercise] > 0]
    slots = [one for one in kept_slots(inputs) if credit[one.exercise] > 0]
    named = names(reader, credit, {one.session for one in sets}, {one.session for one in slots})
    done = sum(one.weight * credit[one.exercise] for one in sets if one.counts(limit))
    counted = [one for one in slots if one.rir_max <= limit]
    planned = sum(one.sets * credit[one.exercise] for one in counted)
    ahead = sum(one.sets * credit[one.exercise] for one in counted if one.ahead(summary.as_of))
    figures = [
        Figure("done", _("hard sets done"), row["done"], done, _("sum of the column “counts”, sets done")),
        Figure("planned", _("hard sets planned"), row["planned"], planned, _("sum of the column “counts”, plan")),
    ]
    scale = None
    tables = [_done_table(reader, sets, credit, limit, named), _plan_table(summary, slots, credit, limit, named)]
    tables.append(_credit_table(reader, summary, named, belongs, group_slug))
    lead = [
        _("A set counts with at most %(limit)s repetitions in reserve; warm-up sets never do. One side is half a set.")
        % {"limit": shown(limit)},
        _("Several heads together get the largest credit among them, set by set."),
    ]
    if group_slug:
        figures.append(
            Figure("ahead", _("hard sets still ahead"), row["ahead"], ahead, _("of the plan, what is still to come"))
        )
        figures.append(
            Figure(
                "shown",
                _("judged: done and ahead"),
                row["done"] + row["ahead"],
                done + ahead,
                f"{shown(row['done'])} + {shown(row['ahead'])}",
            )
        )
        if row["floor"] is not None:
            floor, ceiling = _range_figures(row)
            figures += [floor, ceiling]
            tables.append(_range_table(reader, group_slug, row))
            scale = (row["done"] + row["ahead"], row["floor"], row["ceiling"], row["planned"])
            spread = spread_on(group_slug)
            lead.append(_("Publications: %(spread)s.") % {"spread": in_words(spread.code, spread.params)})
    return Answer(
        title=_("Weekly volume: %(name)s, week of %(week)s") % {"name": name, "week": said(summary.week)},
        lead=lead,
        figures=figures,
        tables=tables,
        rules=_rules(inputs, with_range=bool(group_slug)),
        method="weekly-volume",
        thresholds=[(_("repetitions in reserve at most"), shown(limit))],
        uncertainty=_(EFFORT_ERROR),
        scale=scale,
    )


def _rules(inputs: dict[str, Any], *, with_range: bool) -> list[Rule]:
    """Return the rules with the versions that the row was made with."""
    made = dict(inputs["rules"])
    rules = [DOSE, TARGETS] if with_range else [DOSE]
    return [Rule(one.id, made.get(one.id, one.version), one.source) for one in rules]


def _done_table(reader: Reader, sets: list[KeptSet], credit: dict[int, float], limit: float, named: Names) -> Table:
    rows = [
        [
            Cell(named.session(one.session), one.session, reader.session(one.session)),
            Cell(named.exercise(one.exercise), one.exercise),
            number(one.number),
            words(SIDES().get(one.side, one.side), one.side),
            Cell(_("warm-up") if one.warm_up else _("working"), one.warm_up),
            number(one.rir),
            number(credit[one.exercise]),
            number(one.weight * credit[one.exercise] if one.counts(limit) else 0.0),
        ]
        for one in sets
    ]
    columns = [
        Column("session", _("Session")),
        Column("exercise", _("Exercise")),
        Column("number", _("Set"), True),
        Column("side", _("Side")),
        Column("warm_up", _("Kind")),
        Column("rir", _("RIR"), True),
        Column("credit", _("Credit"), True),
        Column("counts", _("Counts"), True),
    ]
    return Table("sets", _("Sets done"), columns, rows, _("Nothing that counts."))


def _plan_table(
    summary: WeekSummary, slots: list[KeptSlot], credit: dict[int, float], limit: float, named: Names
) -> Table:
    rows = [
        [
            words(named.planned_day(one.session), one.date),
            Cell(named.exercise(one.exercise), one.exercise),
            number(one.sets),
            number(one.rir_max),
            number(credit[one.exercise]),
            Cell(_("ahead") if one.ahead(summary.as_of) else _("begun or past"), one.ahead(summary.as_of)),
            number(one.sets * credit[one.exercise] if one.rir_max <= limit else 0.0),
        ]
        for one in slots
    ]
    columns = [
        Column("day", _("Day")),
        Column("exercise", _("Exercise")),
        Column("sets", _("Sets"), True),
        Column("rir_max", _("RIR, at most"), True),
        Column("credit", _("Credit"), True),
        Column("ahead", _("Still ahead")),
        Column("counts", _("Counts"), True),
    ]
    return Table("slots", _("Sets planned"), columns, rows, _("Nothing that counts."))


def _credit_table(reader: Reader, summary: WeekSummary, named: Names, belongs: Belongs, group_slug: str) -> Table:
    known = {
        one.slug: one.name
        for one in Head.objects.filter(slug__in={h for heads in summary.inputs["credits"].values() for h in heads})
    }
    rows = []
    for key, heads in summary.inputs["credits"].items():
        for slug, share in heads.items():
            if belongs(slug, share):
                total = summary.volume["heads"].get(slug, {})
                rows.append(
                    [
                        Cell(named.exercise(key), int(key)),
                        Cell(known.get(slug, slug), slug, reader.why("head", summary.week.isoformat(), slug)),
                        number(share[0]),
                        number(total.get("done", 0.0)),
                        number(total.get("planned", 0.0)),
                    ]
                )
    columns = [
        Column("exercise", _("Exercise")),
        Column("head", _("Head")),
        Column("credit", _("Credit"), True),
        Column("head_done", _("Head, done in the week"), True),
        Column("head_planned", _("planned"), True),
    ]
    return Table("credits", _("Credits, and each head's own week"), columns, rows)


def _range_figures(row: dict[str, Any]) -> tuple[Figure, Figure]:
    how = _("the coach's own") if row["source"] == "coach" else _("the default for training status and priority")
    return (
        Figure("floor", _("range, from"), row["floor"], row["floor"], how),
        Figure("ceiling", _("range, to"), row["ceiling"], row["ceiling"], how),
    )


def _range_table(reader: Reader, slug: str, row: dict[str, Any]) -> Table:
    client = reader.client
    own = client.target_overrides.get(slug)
    columns = [
        Column("status", _("Training status")),
        Column("priority", _("Priority")),
        Column("source", _("Range is")),
        Column("floor", _("From"), True),
        Column("ceiling", _("To"), True),
    ]
    line = [
        Cell(client.get_training_status_display(), client.training_status),
        words(dict(PRIORITIES)[priority_for(client, slug)], priority_for(client, slug)),
        Cell(_("the coach's own") if own else _("the default, chosen"), row["source"]),
        number(row["floor"]),
        number(row["ceiling"]),
    ]
    return Table("range", _("The range"), columns, [line])


def tally(reader: Reader, monday: str) -> Answer:
    """Answer for how many sets of the week were hard, of unknown effort, too easy, or warm-up."""
    summary = week_row(reader, monday)
    sets = kept_sets(summary.inputs)
    credits = {
        key: {head: share[0] for head, share in heads.items()} for key, heads in summary.inputs["credits"].items()
    }
    found = weekly_volume([one.counted for one in sets], credits, {}, {}, summary.inputs["rir_limit"])
    named = names(reader, {one.exercise for one in sets}, {one.session for one in sets})
    row, limit = summary.volume["tally"], summary.inputs["rir_limit"]
    return Answer(
        title=_("Sets of the week of %(week)s") % {"week": said(summary.week)},
        lead=[_("One side is half a set. A set without RIR counts as hard, and is counted here.")],
        figures=[
            Figure("hard", _("hard sets"), row["hard"], found.hard_sets),
            Figure("unknown", _("of them without RIR"), row["unknown_effort"], found.unknown_effort_sets),
            Figure("easy", _("too easy to count"), row["easy"], found.easy_sets),
            Figure("warm_up", _("warm-up sets"), row["warm_up"], found.warm_up_sets),
        ],
        tables=[_done_table(reader, sets, {one.exercise: 1.0 for one in sets}, limit, named)],
        rules=_rules(summary.inputs, with_range=False),
        method="weekly-volume",
        thresholds=[(_("repetitions in reserve at most"), shown(limit))],
        uncertainty=_(EFFORT_ERROR),
    )
