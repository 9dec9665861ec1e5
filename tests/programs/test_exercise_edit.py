"""Writing a practice's own exercise: new, copied, changed; rows that work without a script; nothing typed is lost."""

import html

import pytest
from django.urls import reverse

from programs.models import Exercise, JointAction, Limit
from programs.signals import plan_changed

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"
NEW = reverse("exercise-create")


@pytest.fixture
def coach(client, world, library):
    client.force_login(world.coach, backend=BACKEND)
    return client


def sent(library, credits=(("semitendinosus", "1", "hip-flexion"), ("soleus", "0.25", None)), links=(), **changes):
    """A filled form; `credits` are (head, credit, position that makes it long or None)."""
    actions = dict(JointAction.objects.values_list("slug", "pk"))
    fields = {
        "name": "Our leg curl",
        "equipment": library.equipment("machine-stack").pk,
        "laterality": "both",
        "load_kind": "external",
        "rep_unit": "reps",
        "set_up": "Sit.",
        "cues": "Pull.\n\nSlowly back.",
        "cautions": "Cramp at first.\n",
        "rest_s": "90",
        "rep_s": "4",
        "setup_s": "45",
        "actions": [actions["knee-flexion"]],
        "credits-TOTAL_FORMS": str(len(credits) + 3),
        "credits-INITIAL_FORMS": "0",
        "links-TOTAL_FORMS": str(len(links) + 3),
        "links-INITIAL_FORMS": "0",
    }
    for grade in ("activation", "long_length", "loadability", "near_failure"):
        fields |= {grade: "4", f"{grade}_reason": f"About {grade}."}
    for n, (head, credit, position) in enumerate(credits):
        fields |= {f"credits-{n}-head": library.head(head).pk if head else "", f"credits-{n}-credit": credit}
        if position:
            fields |= {f"credits-{n}-loaded_long": "on", f"credits-{n}-long_by": actions.get(position, "")}
    for n, (kind, other) in enumerate(links):
        fields |= {f"links-{n}-kind": kind, f"links-{n}-other": library.exercise(other).pk}
    return {key: value for key, value in (fields | changes).items() if value is not None}


def test_an_exercise_is_made_with_its_rows(coach, world, library):
    response = coach.post(NEW, sent(library, links=[("easier", "prone-leg-curl"), ("substitute", "prone-leg-curl")]))
    made = Exercise.objects.get(practice=world.practice)
    assert response.url == reverse("exercise-detail", args=[made.pk])
    assert (made.name, made.slug, made.cues, made.cautions) == (
        "Our leg curl", "our-leg-curl", ["Pull.", "Slowly back."], ["Cramp at first."],
    )  # fmt: skip
    credits = made.credits.values_list("head__slug", "credit", "loaded_long", "long_by__slug")
    assert set(credits) == {("semitendinosus", 1.0, True, "hip-flexion"), ("soleus", 0.25, False, None)}
    assert [(link.kind, link.other.slug) for link in made.links.all()] == [
        ("easier", "prone-leg-curl"), ("substitute", "prone-leg-curl"),
    ]  # fmt: skip
    assert made.grade_reasons["activation"] == "About activation."
    assert coach.get(response.url).status_code == 200


def test_two_of_the_same_name_get_addresses_of_their_own(coach, world, library):
    coach.post(NEW, sent(library))
    coach.post(NEW, sent(library))
    slugs = set(Exercise.objects.filter(practice=world.practice).values_list("slug", flat=True))
    assert slugs == {"our-leg-curl", "our-leg-curl-2"}


@pytest.mark.parametrize(
    ("change", "where"),
    [
        ({"name": ""}, "name"),
        ({"cautions": " \n "}, "cautions"),
        ({"actions": None}, "actions"),
        ({"rest_s": "901"}, "rest_s"),
        ({"rep_s": "-1"}, "rep_s"),
        ({"activation": ""}, "activation"),
        ({"activation": "6"}, "activation"),
        ({"load_kind": "assisted"}, "load_kind"),
        ({"rep_unit": "minutes"}, "rep_unit"),
    ],
)
def test_a_fault_stands_beside_its_field_and_nothing_is_lost(coach, world, library, change, where):
    response = coach.post(NEW, sent(library, **change))
    assert response.status_code == 422
    assert where in response.context["editor"].form.errors
    content = html.unescape(response.content.decode())
    for typed in ("Slowly back.", "About loadability.", 'value="0.25"'):
        assert typed in content
    assert not Exercise.objects.filter(practice=world.practice).exists()


@pytest.mark.parametrize(
    ("credits", "row", "field"),
    [
        ([("semitendinosus", "1.5", None)], 0, "credit"),
        ([("semitendinosus", "0", None)], 0, "credit"),
        ([("semitendinosus", "", None)], 0, "credit"),
        ([(None, "1", None)], 0, "head"),
        ([("soleus", "1", None), ("soleus", "0.5", None)], 1, "head"),
        ([("semitendinosus", "1", "knee-extension")], 0, "long_by"),  # the joint that is trained itself
        ([("semitendinosus", "1", "hip-extension")], 0, "long_by"),  # that makes it short
        ([("semitendinosus", "1", "none")], 0, "long_by"),
        ([("triceps-brachii-long", "1", "shoulder-flexion")], 0, "long_by"),  # not trained at all
    ],
)
def test_a_fault_in_a_row_stands_in_that_row(coach, world, library, credits, row, field):
    response = coach.post(NEW, sent(library, credits=credits))
    assert response.status_code == 422
    assert field in response.context["editor"].credits.forms[row].errors
    assert not Exercise.objects.filter(practice=world.practice).exists()


def test_a_set_must_count_for_something(coach, library):
    response = coach.post(NEW, sent(library, credits=[]))
    assert "Name at least one muscle" in response.content.decode()


def test_the_same_exercise_is_not_both_harder_and_easier(coach, library):
    links = [("harder", "prone-leg-curl"), ("easier", "prone-leg-curl")]
    response = coach.post(NEW, sent(library, links=links))
    assert "kind" in response.context["editor"].links.forms[1].errors
    twice = coach.post(NEW, sent(library, links=[links[0], links[0]]))
    assert "other" in twice.context["editor"].links.forms[1].errors


def test_a_row_is_removed_by_its_mark_or_by_emptying_it(coach, world, library):
    credits = [("semitendinosus", "1", None), ("soleus", "0.25", None), (None, "", None)]
    coach.post(NEW, sent(library, credits=credits, **{"credits-1-DELETE": "on"}))
    made = Exercise.objects.get(practice=world.practice)
    assert [row.head.slug for row in made.credits.all()] == ["semitendinosus"]


def test_more_rows_come_without_a_script_and_keep_what_was_typed(coach, world, library):
    half = sent(library, name="", cautions="Half a thought", more="credits", links=[("harder", "prone-leg-curl")])
    response = coach.post(NEW, half)
    assert response.status_code == 200
    editor = response.context["editor"]
    assert len(editor.credits.forms) == 2 + 3 + 3
    assert len(editor.links.forms) == 1 + 3
    content = html.unescape(response.content.decode())
    assert "Half a thought" in content
    assert 'value="0.25"' in content
    assert "errorlist" not in content
    assert editor.credits.forms[0]["loaded_long"].value()
    assert not Exercise.objects.filter(practice=world.practice).exists()


def test_a_page_always_offers_three_empty_rows(coach):
    editor = coach.get(NEW).context["editor"]
    assert (len(editor.credits.forms), len(editor.links.forms)) == (3, 3)


def test_a_copy_of_the_librarys_can_be_saved_as_it_stands(coach, world, library):
    """Whatever the library holds must pass the form, or no one could adapt it."""
    for slug in ("seated-leg-curl", "assisted-pull-up", "dumbbell-carry"):
        source = library.exercise(slug)
        address = f"{NEW}?copy={source.pk}"
        editor = coach.get(address).context["editor"]
        response = coach.post(address, as_sent(editor))
        assert response.status_code == 302, (slug, response.context["editor"].form.errors)
        copy = Exercise.objects.get(practice=world.practice, name=f"{source.name} (own)")
        for name in ("cues", "cautions", "set_up", "rep_unit", "grade_reasons", "grade_activation", "rest_s"):
            assert getattr(copy, name) == getattr(source, name)
        fields = ("head", "credit", "loaded_long", "long_by")
        assert set(copy.credits.values_list(*fields)) == set(source.credits.values_list(*fields))
        assert set(copy.links.values_list("kind", "other")) == set(source.links.values_list("kind", "other"))
        assert set(copy.actions.all()) == set(source.actions.all())
        assert source.practice is None


def as_sent(editor):
    """What a browser would send if the page were saved untouched."""
    data = {}
    for form in (editor.form, *editor.credits.forms, *editor.links.forms):
        for field in form:
            value = field.value()
            if value not in (None, False, "", []):
                data[field.html_name] = "on" if value is True else value
    for rows in (editor.credits, editor.links):
        data |= {f"{rows.prefix}-TOTAL_FORMS": len(rows.forms), f"{rows.prefix}-INITIAL_FORMS": 0}
    return data


def test_a_change_keeps_the_row_and_its_address(coach, world, library):
    coach.post(NEW, sent(library))
    made = Exercise.objects.get(practice=world.practice)
    address = reverse("exercise-edit", args=[made.pk])
    data = as_sent(coach.get(address).context["editor"]) | {"name": "Renamed", "cues": "One."}
    assert coach.post(address, data).status_code == 302
    again = Exercise.objects.get(practice=world.practice)
    assert (again.pk, again.slug, again.name, again.cues) == (made.pk, made.slug, "Renamed", ["One."])
    assert again.credits.count() == 2


def test_copying_what_another_practice_wrote_is_not_possible(coach, world, library):
    foreign = library.exercise("seated-leg-curl")
    foreign.pk, foreign.practice = None, world.outsider_membership.practice
    foreign.save()
    assert coach.get(f"{NEW}?copy={foreign.pk}").status_code == 404
    data = sent(library) | {"links-0-kind": "harder", "links-0-other": foreign.pk}
    assert "other" in coach.post(NEW, data).context["editor"].links.forms[0].errors


def test_archive_takes_it_out_of_the_choices_and_restore_brings_it_back(coach, world, library):
    coach.post(NEW, sent(library))
    made = Exercise.objects.get(practice=world.practice)
    coach.post(reverse("exercise-archive", args=[made.pk]))
    made.refresh_from_db()
    assert made.archived_at is not None
    assert "archived" in coach.get(reverse("exercise-detail", args=[made.pk])).content.decode()
    coach.post(reverse("exercise-restore", args=[made.pk]))
    made.refresh_from_db()
    assert made.archived_at is None


@pytest.mark.parametrize(
    ("change", "told"),
    [({"name": "Renamed", "cues": "Other."}, 0), ({"rep_unit": "seconds"}, 1), ({"credits-0-credit": "0.5"}, 1)],
)
def test_plans_are_computed_again_only_when_what_counts_changed(coach, world, library, plan_with, change, told):
    coach.post(NEW, sent(library))
    made = Exercise.objects.get(practice=world.practice)
    first = plan_with(made)
    heard = []
    plan_changed.connect(receiver := lambda **said: heard.append((said["client_id"], said["since"])), weak=False)
    try:
        address = reverse("exercise-edit", args=[made.pk])
        coach.post(address, as_sent(coach.get(address).context["editor"]) | change)
    finally:
        plan_changed.disconnect(receiver)
    assert heard == [(world.client.pk, first)] * told


def test_the_form_asks_a_fixed_number_of_questions(coach, library, django_assert_max_num_queries):
    # The person; source with its credits, links, actions; then what there is to choose from.
    for address in (NEW, f"{NEW}?copy={library.exercise('seated-leg-curl').pk}"):
        with django_assert_max_num_queries(16):
            coach.get(address)


def test_joints_and_positions_are_chosen_and_count_as_judged(coach, world, library):
    ids = dict(Limit.objects.values_list("slug", "pk"))
    coach.post(NEW, sent(library, limits=[ids["kneeling"], ids["face-down"]]))
    made = Exercise.objects.get(practice=world.practice)
    assert [limit.slug for limit in made.limits.all()] == ["kneeling", "face-down"]
    assert made.limits_judged
    coach.post(reverse("exercise-edit", args=[made.pk]), sent(library))
    made.refresh_from_db()
    assert (made.limits.count(), made.limits_judged) == (0, False)
    coach.post(reverse("exercise-edit", args=[made.pk]), sent(library, limits_judged="on"))
    made.refresh_from_db()
    assert made.limits_judged
