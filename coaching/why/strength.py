"""Why an e1RM is what it is, and the difference between the sides."""

from typing import Any
from uuid import UUID

from django.http import Http404
from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _

from coaching.models import StrengthPoint
from coaching.recompute.strength import RULE
from coaching.templatetags.coaching import confidence_word
from coaching.why.answer import Answer, Cell, Column, Figure, Table, logged, number, shown, words
from coaching.why.kept import SIDES
from coaching.why.links import Reader
from coaching.why.weeks import said
from logbook.models import SetLog
from periodization.rules import Rule
from periodization.sides import RULE as SIDES_RULE
from periodization.sides import side_difference
from periodization.strength import formula_named
from periodization.units import from_kg
from programs.sentences import in_words


def strength(reader: Reader, session_id: str, exercise_id: str) -> Answer:
    """Answer for the e1RM of one exercise in one session, and of both its sides where it is one-sided."""
    point = _point(reader, session_id, exercise_id)
    kept, unit = point.inputs, reader.unit
    formula = formula_named(kept["formula"])
    moved = _moved(kept)
    factor = formula.factor(kept["reps"] + (kept["rir"] or 0.0))
    kg = _in(unit)
    figures = [
        Figure(
            "e1rm",
            _("e1RM"),
            kg(point.e1rm_kg),
            kg(moved * factor),
            f"{shown(kg(moved), 1)} × {shown(factor, 3)}",
            1,
            unit,
        ),
        Figure(
            "to_failure",
            _("repetitions to failure"),
            kept["reps_to_failure"],
            kept["reps"] + (kept["rir"] or 0.0),
            f"{kept['reps']} + {shown(kept['rir'] or 0.0)}",
        ),
        Figure(
            "moved",
            _("load moved"),
            kg(kept["effective_kg"]),
            kg(moved),
            _moved_words(kept, kg),
            1,
            unit,
        ),
    ]
    sides = kept.get("sides")
    return Answer(
        title=_("e1RM: %(exercise)s, %(day)s") % {"exercise": point.exercise, "day": said(point.date)},
        lead=[
            _("The best set of the session stands for it, of a one-sided exercise that of the weaker side."),
            _("Trust: %(word)s.") % {"word": confidence_word(point.confidence)},
            *(in_words(code, {}) for code in kept["reasons"]),
        ],
        figures=[*figures, *(_side_figures(sides, kg, unit) if sides else [])],
        tables=[_set_table(reader, point, kept, factor), *([_side_table(sides, kg, unit)] if sides else [])],
        rules=[
            Rule(*kept["rule"], RULE.source),
            Rule(f"{formula.label}", kept["formula_version"], formula.citation),
            *([Rule(*sides["rule"], SIDES_RULE.source)] if sides else []),
        ],
        method="strength",
        thresholds=[(_("SD of the logarithm of this e1RM"), shown(kept["sd"], 3))],
        uncertainty=_(
            "One e1RM is within about ± %(percent)s %% of the true one, 9 times in 10: a tested maximum varies by 4 "
            "%% from "
            "day to day (Grgic et al. 2020), and a reported RIR errs by a repetition (Hackett et al. 2017)."
        )
        % {"percent": shown(100 * 1.645 * (kept["sd"] or 0.0), 0)},
        see=[(_("the session"), reader.session(point.session_id))],
    )


def _point(reader: Reader, session_id: str, exercise_id: str) -> StrengthPoint:
    try:
        key, number_of = UUID(session_id), int(exercise_id)
    except ValueError as error:
        raise Http404 from error
    rows = StrengthPoint.objects.select_related("exercise__equipment")
    return get_object_or_404(rows, client=reader.client, session=key, exercise=number_of)


def _in(unit: str) -> Any:
    return lambda kg: from_kg(kg, "lb" if unit == "lb" else "kg")


def _moved(kept: dict[str, Any]) -> float:
    """Return the load that the muscles moved, from the load entered and the body."""
    mass = kept["body_mass"]
    if not mass:
        return float(kept["load_kg"])
    body = mass["kg"] * mass["share"]
    return float(body + kept["load_kg"] if kept["effective_kg"] >= body else body - kept["load_kg"])


def _moved_words(kept: dict[str, Any], kg: Any) -> str:
    mass = kept["body_mass"]
    if not mass:
        return _("the load entered")
    body = mass["kg"] * mass["share"]
    sign = "+" if kept["effective_kg"] >= body else "−"
    whole = shown(kg(mass["kg"]), 1)
    start = whole if mass["share"] == 1 else f"{whole} × {shown(mass['share'])}"
    return f"{start} {sign} {shown(kg(kept['load_kg']), 1)}"


def _set_table(reader: Reader, point: StrengthPoint, kept: dict[str, Any], factor: float) -> Table:
    kg, mass = _in(reader.unit), kept["body_mass"] or {}
    row = SetLog.objects.filter(client=reader.client, pk=kept["set"]).first()
    line = [
        Cell(said(point.date, _("D j M Y")), kept["set"], reader.session(point.session_id)),
        number(row.number if row else None),
        words(SIDES().get(kept["side"], kept["side"]), kept["side"]),
        logged(kept["load_kg"], reader.unit, (row.load, row.unit) if row else None, 1),
        number(kg(mass["kg"]) if mass else None, 1),
        number(mass.get("share")),
        number(kept["reps"]),
        number(kept["rir"]),
        number(factor, 3),
    ]
    columns = [
        Column("set", _("Session")),
        Column("number", _("Set"), True),
        Column("side", _("Side")),
        Column("load", _("Load (%(unit)s)") % {"unit": reader.unit}, True),
        Column("body", _("Body mass (%(unit)s)") % {"unit": reader.unit}, True),
        Column("share", _("Share of the body"), True),
        Column("reps", _("Repetitions"), True),
        Column("rir", _("RIR"), True),
        Column("factor", _("Factor of the equation"), True),
    ]
    return Table("set", _("The set it came from"), columns, [line])


def _side_figures(sides: dict[str, Any], kg: Any, unit: str) -> list[Figure]:
    left, right = sides["left"], sides["right"]
    again = side_difference(left["e1rm_kg"], right["e1rm_kg"], left["sd"], right["sd"])
    low, middle, high = sides["percent"]
    how = _("(stronger − weaker) / stronger; minus: the left is weaker")
    reach = _("the same with the logarithm of the ratio ± 1.645 × root of the summed squares of both SDs")
    return [
        Figure("left", _("left"), kg(left["e1rm_kg"]), kg(left["e1rm_kg"]), _("best set of the side"), 1, unit),
        Figure("right", _("right"), kg(right["e1rm_kg"]), kg(right["e1rm_kg"]), _("best set of the side"), 1, unit),
        Figure("difference", _("left against right"), middle, again.percent, how, 1, "%"),
        Figure("difference_low", _("90 % range, from"), low, again.low, reach, 1, "%"),
        Figure("difference_high", _("90 % range, to"), high, again.high, reach, 1, "%"),
    ]


def _side_table(sides: dict[str, Any], kg: Any, unit: str) -> Table:
    logs = {str(row.pk): row for row in SetLog.objects.filter(pk__in=[sides["left"]["set"], sides["right"]["set"]])}
    rows = []
    for side in ("left", "right"):
        one, row = sides[side], logs.get(sides[side]["set"])
        rows.append(
            [
                words(SIDES()[side], side),
                logged(row.load_kg, unit, (row.load, row.unit), 1) if row else number(None),
                number(row.reps if row else None),
                number(row.rir if row else None),
                number(kg(one["e1rm_kg"]), 1),
                number(one["sd"], 3),
            ]
        )
    columns = [
        Column("side", _("Side")),
        Column("load", _("Load (%(unit)s)") % {"unit": unit}, True),
        Column("reps", _("Repetitions"), True),
        Column("rir", _("RIR"), True),
        Column("e1rm", _("e1RM"), True),
        Column("sd", _("SD of its logarithm"), True),
    ]
    note = _("A description: one session says little, and no size of a difference is known to be a danger.")
    return Table("sides", _("Both sides"), columns, rows, note=note)
