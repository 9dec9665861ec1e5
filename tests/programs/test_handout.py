"""A program on paper: what is printed, once for weeks that say the same, with numbered reasons."""

import datetime as dt
import json

import pytest
from django.urls import reverse
from pytest_django.asserts import assertContains

from programs.document import document_from_json
from programs.handout.options import read_options
from programs.handout.paper import rest_words
from programs.handout.source import Source
from programs.models import ExerciseReference, GradeOverride, PlannedSession, Reference
from programs.services.assignment_make import program_assign
from programs.services.program_write import program_create
from tests.programs.factories import document, make_library, make_program, slot

CSL = {"id": "doe-2020", "title": "On curls", "author": [{"family": "Doe", "given": "Jane"}], "DOI": "10.1000/x"}


@pytest.fixture
def library(db):
    made = make_library()
    made.curl.grade_reasons = {"activation": "Only the elbow bends.", "loadability": "Small steps."}
    made.curl.cues = ["Elbows still."]
    made.curl.save()
    reference = Reference.objects.create(slug="doe-2020", csl=CSL)
    ExerciseReference.objects.create(exercise=made.curl, reference=reference, claim="activation")
    return made


@pytest.fixture
def program(world, library):
    return make_program(world, library, weeks=4, note="He talks too much.")


def paper(browser, program, **query):
    return browser.get(reverse("program-handout", args=[program.pk]), query).content.decode()


def test_the_page_has_what_to_do_how_why_and_from_which_source(client, world, program):
    client.force_login(world.coach)
    text = paper(client, program)
    for part in ("3 × 8–12 @ 1–2 RIR", "3–4 × 8–12", "Start lighter than you think.", "Elbows still.", "Stand."):
        assert part in text
    assert 'Only the elbow bends. <a href="#ref-1">[1]</a>' in text
    assert "On curls" in text
    assert "https://doi.org/10.1000/x" in text


def test_what_is_for_coaches_is_not_on_paper(client, world, program):
    client.force_login(world.coach)
    text = paper(client, program)
    assert "He talks too much." not in text
    assert world.coach.name not in text[text.index('class="paper"') :]


def test_weeks_that_say_the_same_are_printed_once_unless_one_writes_on_them(client, world, program):
    client.force_login(world.coach)
    text = paper(client, program)
    assert "Weeks 1–4, each the same" in text
    text = paper(client, program, chosen="yes", boxes="yes")
    assert text.count("Week 3</h3>") == 1
    assert "1 ______ × ____ @ ____" in text


def test_a_block_that_repeats_another_points_to_it_unless_one_writes_on_it(client, world, library):
    content = document([slot("a", library.curl.pk)], weeks=2)
    again = {**content["blocks"][0], "key": "b2", "name": "Again"}
    text = json.dumps(again).replace('"w1', '"v1').replace('"w2', '"v2')
    content["blocks"].append(json.loads(text))
    program = program_create(practice=world.practice, author=world.coach, name="Twice", document=content)
    client.force_login(world.coach)
    url = reverse("program-handout", args=[program.pk])
    first, second = client.get(url).context["handout"].blocks
    assert [(week.same_as, len(week.days)) for week in first.weeks] == [("", 1)]
    assert [(week.same_as, len(week.days)) for week in second.weeks] == [("Block 1, weeks 1–2", 0)]
    assertContains(client.get(url), "As in Block 1, weeks 1–2.")
    written_on = client.get(url, {"chosen": "yes", "boxes": "yes"}).context["handout"]
    assert all(week.days for block in written_on.blocks for week in block.weeks)


def test_the_weeks_and_parts_can_be_chosen(client, world, program):
    client.force_login(world.coach)
    text = paper(client, program, chosen="yes", first="2", last="3")
    assert "Weeks 2–3, each the same" in text
    assert "Elbows still." not in text
    assert "On curls" not in text


@pytest.mark.parametrize(
    ("query", "weeks"),
    [
        ({}, (2, 4)),
        ({"first": "x", "last": "99"}, (2, 4)),
        ({"first": "4", "last": "3"}, (3, 4)),
        ({"first": "-1"}, (2, 4)),
    ],
)
def test_a_choice_that_makes_no_sense_falls_back(query, weeks):
    options = read_options(query, 4, start=2)
    assert (options.first, options.last) == weeks


def test_the_practices_own_reason_stands_instead_of_the_librarys_and_needs_no_reference(
    client, world, library, program
):
    GradeOverride.objects.create(
        practice=world.practice,
        exercise=library.curl,
        grade="activation",
        value=2,
        reason="We disagree.",
        author=world.coach,
    )
    client.force_login(world.coach)
    text = paper(client, program)
    assert "We disagree." in text
    assert "Only the elbow bends." not in text
    assert "On curls" not in text


@pytest.mark.parametrize(
    ("seconds", "words"), [(0, ""), (90, "90 s"), (120, "2 min"), (150, "2 min 30 s"), (45, "45 s")]
)
def test_rests_read_as_on_a_watch(seconds, words):
    assert rest_words(seconds) == words


def test_too_much_for_one_hand_out_is_said_and_nothing_is_laid_out(client, world, library):
    days = [[slot(f"s{day}-{n}", library.curl.pk) for n in range(30)] for day in range(3)]
    long = program_create(practice=world.practice, author=world.coach, name="Long", document=document(*days, weeks=7))
    client.force_login(world.coach)
    text = paper(client, long, chosen="yes", boxes="yes")
    assert "These weeks are 630 rows; 600 fit into one hand-out." in text
    assert 'class="paper"' not in text
    url = reverse("program-handout-pdf", args=[long.pk])
    assert client.get(url, {"chosen": "yes", "boxes": "yes"}).status_code == 409


def test_the_page_asks_as_often_for_a_long_program_as_for_a_short_one(
    client, world, library, django_assert_num_queries
):
    client.force_login(world.coach)
    short, long = make_program(world, library, name="Short"), make_program(world, library, weeks=12, name="Long")
    # session, user, membership, program, exercises, overrides, references
    with django_assert_num_queries(7):
        paper(client, short)
    with django_assert_num_queries(7):
        paper(client, long, chosen="yes", boxes="yes", guides="yes", reasons="yes")


@pytest.fixture
def copy(world, program):
    (made,) = program_assign(
        program=program,
        clients=[world.client],
        starts_on=dt.date(2026, 1, 5),
        weekdays=[0, 3],
        assigned_by=world.coach,
    )
    return made


def test_a_clients_copy_has_dates_and_no_cancelled_session(client, world, copy):
    PlannedSession.objects.filter(date=dt.date(2026, 1, 8)).update(cancelled_at=dt.datetime.now(dt.UTC))
    client.force_login(world.client.user)
    text = client.get(reverse("assignment-handout", args=[copy.pk])).content.decode()
    assert "Mon 5 Jan 2026" in text
    assert "Thu 8 Jan 2026" not in text
    assert f"For {world.client}" not in text


def test_the_clients_name_is_on_it_only_when_chosen(client, world, copy):
    client.force_login(world.coach)
    url = reverse("assignment-handout", args=[copy.pk])
    assert f"For {world.client}" in client.get(url, {"chosen": "yes", "client": "yes"}).content.decode()


def test_starting_loads_are_on_it_only_when_chosen_and_in_the_clients_unit(client, world, copy):
    slot_row = copy.sessions.first().slots.first()
    slot_row.start_load_kg = 22.68
    slot_row.save()
    world.client.user.load_unit = "lb"
    world.client.user.save()
    client.force_login(world.coach)
    url = reverse("assignment-handout", args=[copy.pk])
    assert "begin with 50&nbsp;lb" in client.get(url, {"chosen": "yes", "loads": "yes"}).content.decode()
    assert "begin with" not in client.get(url).content.decode()


def test_a_copy_begins_at_the_week_that_runs():
    content = document_from_json(document([slot("s1", 1)], weeks=3))
    dates = {f"w{n}d1": dt.date(2026, 1, 5) + dt.timedelta(days=7 * (n - 1)) for n in (1, 2, 3)}
    source = Source("Arms", content, dates)
    assert source.first_week_from(dt.date(2026, 1, 12)) == 2
    assert source.first_week_from(dt.date(2026, 1, 13)) == 3
    assert source.first_week_from(dt.date(2027, 1, 1)) == 1


def test_a_client_finds_it_from_the_plan(client, world, copy):
    client.force_login(world.client.user)
    text = client.get(reverse("plan"), {"week": "2026-01-05"}).content.decode()
    assert reverse("assignment-handout", args=[copy.pk]) in text
