"""A program that came from a draft is judged by what was asked for, until the coach says otherwise."""

from importlib import import_module

import pytest
from django.apps import apps
from django.urls import reverse

from programs.models import Program
from programs.services.draft_ask import AskedTarget
from programs.services.draft_program import draft_make_program
from programs.services.draft_work import draft_work_off
from programs.services.program_write import program_copy
from programs.services.targets import ASKED, default_ranges
from tests.programs.draft_helpers import small_ask, start
from tests.programs.factories import make_library

TARGETS = {"biceps": AskedTarget(3, 5), "triceps": AskedTarget(4, 7, "focus")}


@pytest.fixture
def program(world):
    """Asked for fewer sets than an intermediate usually gets."""
    make_library()
    run = start(world, small_ask(targets=TARGETS))
    draft_work_off(run.pk)
    run.refresh_from_db()
    return draft_make_program(run=run, author=world.coach)


@pytest.fixture
def coach(client, world):
    client.force_login(world.coach)
    return client


def tally(coach, program, **query):
    context = coach.get(reverse("program-editor", args=[program.pk]), query).context
    rows = (*context["tally"].trained, *context["tally"].untrained)
    return {row.slug: row for row in rows}


def judge(coach, program, by):
    days = {"weekday_0": 0, "weekday_1": 3}
    return coach.post(reverse("program-outlook", args=[program.pk]), {"written_for": by, **days})


def ends(row):
    return row.target.floor, row.target.ceiling


def test_the_tally_judges_by_what_the_draft_was_asked_for_and_says_so(coach, program):
    rows = tally(coach, program)
    assert (ends(rows["biceps"]), ends(rows["triceps"])) == ((3, 5), (4, 7))
    assert {rows["biceps"].standing, rows["triceps"].standing} == {"inside"}
    text = coach.get(reverse("program-editor", args=[program.pk])).content.decode()
    assert '<option value="asked" selected>as asked of the draft</option>' in text
    assert "By the ranges that were asked of the draft" in text
    assert "Focus: triceps." in text


def test_what_was_not_asked_for_has_no_floor_and_keeps_the_usual_ceiling(coach, program):
    others = {slug: row for slug, row in tally(coach, program).items() if slug not in TARGETS}
    usual = default_ranges("intermediate", others)
    assert others
    assert all(ends(row) == (0, usual[slug].ceiling) for slug, row in others.items())


def test_the_coach_returns_to_the_usual_ranges_and_back(coach, program):
    judge(coach, program, "novice")
    assert ends(tally(coach, program)["biceps"]) == (6, 10)
    text = coach.get(reverse("program-editor", args=[program.pk])).content.decode()
    assert "A draft was asked for other ranges" in text
    judge(coach, program, ASKED)
    program.refresh_from_db()
    # Whom it is written for is another matter: fitting goes by it.
    assert (program.written_for, ends(tally(coach, program)["biceps"])) == ("novice", (3, 5))


def test_the_weeks_side_by_side_are_judged_alike(coach, program):
    page = coach.get(reverse("program-weeks", args=[program.pk])).content.decode()
    assert "the range that was asked of the draft" in page
    judge(coach, program, "intermediate")
    page = coach.get(reverse("program-weeks", args=[program.pk])).content.decode()
    assert "the range that was asked of the draft" not in page


def test_a_reader_looks_by_either_and_changes_nothing(client, world, program):
    client.force_login(world.owner)
    Program.objects.filter(pk=program.pk).update(author=world.owner)
    client.force_login(world.coach)
    assert ends(tally(client, program, written_for="novice")["biceps"]) == (6, 10)
    assert ends(tally(client, program, written_for=ASKED)["biceps"]) == (3, 5)
    assert Program.objects.get(pk=program.pk).judge_by_asked


def test_a_program_of_ones_own_cannot_be_judged_by_what_was_never_asked(coach, world):
    from tests.programs.factories import make_program

    plain = make_program(world, make_library())
    assert judge(coach, plain, ASKED).status_code == 302
    plain.refresh_from_db()
    assert not plain.judge_by_asked
    assert ASKED not in coach.get(reverse("program-editor", args=[plain.pk])).content.decode().split('"')


def test_a_copy_and_the_minutes_go_with_it(world, program):
    copy = program_copy(program=program, author=world.coach)
    assert (copy.asked_ranges, copy.judge_by_asked) == (program.asked_ranges, True)
    assert (program.session_minutes, copy.session_minutes) == (45, 45)


def test_programs_of_earlier_drafts_learn_what_was_asked_and_are_judged_as_before(program):
    asked = program.asked_ranges
    Program.objects.update(asked_ranges={}, judge_by_asked=False)
    import_module("programs.migrations.0017_asked_ranges").tell_programs(apps, None)
    program.refresh_from_db()
    assert (program.asked_ranges, program.judge_by_asked) == (asked, False)
