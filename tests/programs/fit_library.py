"""The real library as fitting sees it, without a database; ids are places in the files."""

from functools import cache

from programs.fit.match import Pool
from programs.fit.model import ExerciseFit
from tests.programs.library_fixture import library_data


@cache
def ids() -> dict[str, int]:
    return {entry["slug"]: place for place, entry in enumerate(library_data().exercises, 1)}


@cache
def gear() -> dict[str, int]:
    return {entry["slug"]: place for place, entry in enumerate(library_data().equipment, 1)}


@cache
def pool() -> Pool:
    data = library_data()
    named = {entry["slug"]: entry for entry in data.equipment}
    site = {entry["slug"]: entry["site"] for entry in data.limits}
    return Pool(
        {
            ids()[entry["slug"]]: ExerciseFit(
                pk=ids()[entry["slug"]],
                name=entry["name"],
                equipment=gear()[entry["equipment"]],
                equipment_name=named[entry["equipment"]]["name"],
                credits=entry["credits"],
                long={head: entry["credits"][head] for head in entry["long_heads"]},
                limits=frozenset(entry["limits"]),
                sites=frozenset(site[slug] for slug in entry["limits"]),
                listed=tuple(ids()[slug] for slug in entry["substitutes"]),
                harder=frozenset(ids()[slug] for slug in entry["harder"]),
                easier=frozenset(ids()[slug] for slug in entry["easier"]),
                one_sided=entry["laterality"] != "both",
                rep_unit=entry.get("rep_unit", "reps"),
                rep_s=entry["rep_s"],
                setup_s=entry["setup_s"],
                load_kind=entry["load_kind"],
                ladder=named[entry["equipment"]]["ladder"],
                ladder_lb=named[entry["equipment"]].get("ladder_lb"),
            )
            for entry in data.exercises
        }
    )
