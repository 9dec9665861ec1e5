"""What a practice trains with: the list, one piece, its own."""

import html

import pytest
from django.urls import reverse

from programs.models import Equipment, Exercise
from programs.services.equipment_save import equipment_archive, equipment_save
from programs.signals import plan_changed

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"
LIST, NEW = reverse("equipment-list"), reverse("equipment-create")
RACK = {"name": "Our rack", "kind": "dumbbells", "unit": "lb", "values": "5, 10, 15, 20"}


@pytest.fixture
def coach(client, world, library):
    client.force_login(world.coach, backend=BACKEND)
    return client


def make(practice, name="Our rack", kind="dumbbells", values=(2, 4)):
    return equipment_save(practice=practice, name=name, kind=kind, ladder={"kind": "listed", "values": list(values)})


def body(response):
    return html.unescape(response.content.decode())


def test_own_equipment_is_added_and_tells_its_loads(coach, world):
    response = coach.post(NEW, RACK, follow=True)
    row = Equipment.objects.get(practice=world.practice)
    assert row.ladder == {"kind": "listed", "values": [5, 10, 15, 20], "unit": "lb"}
    content = body(response)
    assert "5 to 20 by 5 lb" in content
    assert "what is printed on one of them" in content


def test_a_fault_loses_nothing(coach, world):
    response = coach.post(NEW, RACK | {"values": "5, ten"})
    assert response.status_code == 422
    assert "ten is not a number." in body(response)
    assert 'value="5, ten"' in body(response)
    assert not Equipment.objects.filter(practice=world.practice).exists()


def test_editing_changes_the_same_row(coach, world):
    row = make(world.practice)
    response = coach.post(reverse("equipment-edit", args=[row.pk]), RACK | {"name": "Bigger rack"})
    assert response.status_code == 302
    row.refresh_from_db()
    assert (row.name, row.slug, row.ladder["unit"]) == ("Bigger rack", "our-rack", "lb")


def test_a_ladder_that_could_not_be_read_is_never_saved(world):
    with pytest.raises(Exception, match="Name at least one load"):
        equipment_save(practice=world.practice, name="x", kind="dumbbells", ladder={"kind": "listed", "values": []})


def test_archived_equipment_is_listed_last_and_no_longer_chosen(coach, world, library):
    row = make(world.practice)
    coach.post(reverse("equipment-archive", args=[row.pk]))
    rows = [found for found, _loads in coach.get(LIST).context["rows"]]
    assert rows[-1] == row
    choices = coach.get(reverse("exercise-create")).context["editor"].form.fields["equipment"].queryset
    assert row not in choices
    coach.post(reverse("equipment-restore", args=[row.pk]))
    assert next(found for found, _loads in coach.get(LIST).context["rows"]) == row


def test_an_exercise_keeps_its_archived_equipment_when_it_is_edited(coach, world, library):
    row = make(world.practice)
    own = library.exercise("seated-leg-curl")
    own.pk, own.practice, own.equipment = None, world.practice, row
    own.save()
    equipment_archive(equipment=row)
    form = coach.get(reverse("exercise-edit", args=[own.pk])).context["editor"].form
    assert row in form.fields["equipment"].queryset


def test_the_list_counts_only_what_the_practice_can_see(coach, world, library):
    own = library.exercise("seated-leg-curl")
    stack = own.equipment
    before = {row.pk: row.used for row, _loads in coach.get(LIST).context["rows"]}[stack.pk]
    own.pk, own.practice = None, world.outsider_membership.practice
    own.save()
    after = {row.pk: row.used for row, _loads in coach.get(LIST).context["rows"]}[stack.pk]
    assert before == after == Exercise.objects.filter(practice=None, equipment=stack).count()


def test_new_loads_are_told_to_the_plans_that_use_them(world, library, plan_with):
    row = make(world.practice)
    own = library.exercise("seated-leg-curl")
    own.pk, own.practice, own.equipment = None, world.practice, row
    own.save()
    first = plan_with(own)
    heard = []
    plan_changed.connect(receiver := lambda **said: heard.append((said["client_id"], said["since"])), weak=False)
    try:
        equipment_save(practice=world.practice, equipment=row, name="New name", kind=row.kind, ladder=row.ladder)
        assert heard == []
        ladder = {"kind": "listed", "values": [2, 4, 6]}
        equipment_save(practice=world.practice, equipment=row, name="New name", kind=row.kind, ladder=ladder)
    finally:
        plan_changed.disconnect(receiver)
    assert heard == [(world.client.pk, first)]


def test_pages_ask_the_same_number_of_questions_for_few_and_many(coach, world, library, django_assert_num_queries):
    one = reverse("equipment-detail", args=[library.equipment("machine-stack").pk])
    with django_assert_num_queries(6):  # session, user, membership; the equipment; its exercises counted and read
        coach.get(one)
    with django_assert_num_queries(5):  # session, user, membership; the rows counted and read
        coach.get(LIST)
    for n in range(20):
        make(world.practice, f"Rack {n}")
    with django_assert_num_queries(5):
        coach.get(LIST)
