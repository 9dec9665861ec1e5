"""The exercises of a practice, and the muscles they train, as fitting asks for them: four queries."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db.models import Q

from accounts.models import Practice
from programs.fit.match import Pool
from programs.fit.model import ExerciseFit
from programs.models import Exercise, ExerciseLink, HeadCredit
from programs.services.tally_facts import Anatomy


@dataclass(frozen=True, slots=True)
class Library:
    pool: Pool
    anatomy: Anatomy
    limit_names: Mapping[str, str]

    def name(self, pk: int) -> str:
        return self.pool.exercises[pk].name


def load_library(practice: Practice, also: Iterable[int]) -> Library:
    """Read the exercises in use in a practice, and those with ids in `also` (a program may hold archived ones)."""
    mine = Q(practice=None) | Q(practice=practice)
    wanted = Exercise.objects.filter((mine & Q(archived_at=None)) | Q(pk__in=set(also))).order_by("pk")
    rows = list(wanted.select_related("equipment").defer("set_up", "cues", "cautions", "grade_reasons"))
    ids = {row.pk for row in rows}
    limits: dict[int, dict[str, str]] = defaultdict(dict)
    names: dict[str, str] = {}
    has = Exercise.limits.through.objects.order_by("limit__position")
    for pk, slug, site, name in has.values_list("exercise_id", "limit__slug", "limit__site", "limit__name"):
        limits[pk][slug] = site
        names[slug] = name
    listed: Listed = defaultdict(lambda: defaultdict(list))
    links = ExerciseLink.objects.order_by("position", "pk")
    for pk, kind, other in links.values_list("exercise_id", "kind", "other_id"):
        listed[pk][kind].append(other)
    credits, long, anatomy = _credits()
    return Library(
        Pool({row.pk: _fit(row, limits[row.pk], listed[row.pk], credits, long) for row in rows if row.pk in ids}),
        anatomy,
        names,
    )


Credits = dict[int, dict[str, float]]
Listed = dict[int, dict[str, list[int]]]


def _credits() -> tuple[Credits, Credits, Anatomy]:
    """Return credits by exercise, those of heads loaded while long, and the groups that they are counted to."""
    credits: Credits = defaultdict(dict)
    long: Credits = defaultdict(dict)
    groups: dict[str, tuple[int, str]] = {}
    group_of: dict[str, str] = {}
    heads: dict[str, str] = {}
    columns = ("head__slug", "head__name", "head__group__slug", "head__group__name", "head__group__position")
    rows = HeadCredit.objects.order_by("head__position", "pk")
    for pk, credit, loaded_long, slug, name, group, group_name, place in rows.values_list(
        "exercise_id", "credit", "loaded_long", *columns
    ):
        credits[pk][slug] = credit
        heads[slug] = name
        if loaded_long:
            long[pk][slug] = credit
        if group:
            groups[group] = place, group_name
            group_of[slug] = group
    ordered = {slug: name for slug, (_place, name) in sorted(groups.items(), key=lambda item: item[1])}
    return credits, long, Anatomy(ordered, group_of, {}, heads)


def _fit(
    row: Exercise, limits: Mapping[str, str], listed: Mapping[str, list[int]], credits: Credits, long: Credits
) -> ExerciseFit:
    return ExerciseFit(
        pk=row.pk,
        name=row.name,
        equipment=row.equipment_id,
        equipment_name=row.equipment.name,
        credits=credits.get(row.pk, {}),
        long=long.get(row.pk, {}),
        limits=frozenset(limits),
        sites=frozenset(limits.values()),
        judged=row.limits_judged,
        listed=tuple(listed[ExerciseLink.Kind.SUBSTITUTE]),
        harder=frozenset(listed[ExerciseLink.Kind.HARDER]),
        easier=frozenset(listed[ExerciseLink.Kind.EASIER]),
        one_sided=row.each_side,
        rep_unit=row.rep_unit,
        # Held seconds and steps take about a second each.
        rep_s=row.seconds_a_rep,
        setup_s=row.setup_s,
        load_kind=row.load_kind,
        ladder=row.equipment.ladder,
        ladder_lb=row.equipment.ladder_lb,
        archived=row.archived_at is not None,
    )
