"""What stands on the page of an exercise before anything is changed: a row of the library, or what was typed."""

from collections.abc import Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext as _

from programs.models import GRADE_NAMES, Exercise


def initial_fields(source: Exercise | None, *, copied: bool = False) -> dict[str, Any]:
    """Return the form's values for `source`; nothing for a new exercise. A copy is told apart by its name."""
    if source is None:
        return {}
    names = [field.name for field in Exercise._meta.concrete_fields if field.name not in ("id", "slug", "practice")]
    return {
        **{name: getattr(source, name) for name in names},
        "name": _("%(name)s (own)") % {"name": source.name} if copied else source.name,
        "equipment": source.equipment_id,
        "actions": [action.pk for action in source.actions.all()],
        "limits": [limit.pk for limit in source.limits.all()],
        "cues": "\n".join(source.cues),
        "cautions": "\n".join(source.cautions),
        **{name: getattr(source, f"grade_{name}") for name in GRADE_NAMES},
        **{f"{name}_reason": source.grade_reasons.get(name, "") for name in GRADE_NAMES},
    }


def initial_credits(source: Exercise | None) -> list[dict[str, Any]]:
    if source is None:
        return []
    return [
        {"head": row.head_id, "credit": f"{row.credit:g}", "loaded_long": row.loaded_long, "long_by": row.long_by_id}
        for row in source.credits.all()
    ]


def initial_links(source: Exercise | None) -> list[dict[str, Any]]:
    if source is None:
        return []
    links = source.links.filter(other__archived_at=None)
    return [{"kind": row.kind, "other": row.other_id} for row in links]


def typed(form: forms.Form, given: Mapping[str, Any]) -> dict[str, Any]:
    """Read what was typed into each field, unchecked."""
    return {
        name: field.widget.value_from_datadict(given, {}, form.add_prefix(name)) for name, field in form.fields.items()
    }


def typed_rows(
    row: type[forms.Form], prefix: str, given: Mapping[str, Any], *, keep_empty: bool, options: dict[str, Any]
) -> list[dict[str, Any]]:
    """Read what was typed into each row, unchecked; empty rows are left out unless they are to be kept."""
    sent = str(given.get(f"{prefix}-TOTAL_FORMS", ""))
    count = min(int(sent), 100) if sent.isdecimal() else 0
    found = [typed(row(prefix=f"{prefix}-{n}", **options), given) for n in range(count)]
    return [values for values in found if keep_empty or any(values.values())]
