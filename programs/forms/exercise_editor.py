"""The whole page on which an exercise is written: its form, its rows, and what must hold between them."""

from typing import Any

from accounts.models import Practice
from programs.forms.exercise_form import ExerciseForm
from programs.forms.exercise_initial import initial_credits, initial_fields, initial_links, typed, typed_rows
from programs.forms.exercise_long import long_holds
from programs.forms.exercise_rows import CreditRow, CreditRows, LinkRow, LinkRows, rows
from programs.forms.library_choices import head_choices, position_choices
from programs.models import Exercise
from programs.services.exercise_save import CreditInput, LinkInput
from programs.services.exercise_visible import exercises_of


class ExerciseEditor:
    """Bound when `data` was sent. `source` fills an unbound page: the exercise that is edited, or copied."""

    def __init__(
        self,
        *,
        practice: Practice,
        instance: Exercise | None = None,
        source: Exercise | None = None,
        data: Any = None,
        more: str = "",
    ) -> None:
        """`more` ("credits" or "links") shows again what was sent, unchecked, with empty rows added to those rows."""
        others = exercises_of(practice).exclude(pk=instance.pk if instance else None).values_list("pk", "name")
        credit_options = {"heads": head_choices(), "positions": position_choices()}
        link_options = {"exercises": list(others)}
        credits, links = initial_credits(source), initial_links(source)
        form = {"instance": instance, "practice": practice, "initial": initial_fields(source, copied=instance is None)}
        if more:
            # Unbound again: nothing is checked, so nothing is called wrong before the person is done.
            form["initial"] = typed(ExerciseForm(**form), data)
            credits = typed_rows(CreditRow, "credits", data, keep_empty=more == "credits", options=credit_options)
            links = typed_rows(LinkRow, "links", data, keep_empty=more == "links", options=link_options)
            data = None
        self.form = ExerciseForm(data, **form)
        self.credits = rows(
            CreditRow, CreditRows, data=data, initial=credits, prefix="credits", form_kwargs=credit_options
        )
        self.links = rows(LinkRow, LinkRows, data=data, initial=links, prefix="links", form_kwargs=link_options)

    def is_valid(self) -> bool:
        valid = all([self.form.is_valid(), self.credits.is_valid(), self.links.is_valid()])
        return long_holds(self.credits.kept(), self.form.trained()) and valid

    def credit_inputs(self) -> list[CreditInput]:
        return [
            CreditInput(
                head_id=values["head"],
                credit=values["credit"],
                loaded_long=values["loaded_long"],
                long_by_id=values["long_by"] if values["loaded_long"] else None,
            )
            for values in (row.cleaned_data for row in self.credits.kept())
        ]

    def link_inputs(self) -> list[LinkInput]:
        return [
            LinkInput(other_id=row.cleaned_data["other"], kind=row.cleaned_data["kind"]) for row in self.links.kept()
        ]
