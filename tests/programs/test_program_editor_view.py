"""The editor as a page and as an answer to a script."""

import re

import pytest
from django.urls import reverse

from tests.programs.factories import make_exercise, make_library, make_program, slot

HTMX = {"HX-Request": "true"}


@pytest.fixture
def library(db):
    return make_library()


@pytest.fixture
def program(world, library):
    return make_program(world, library, weeks=2)


def change(browser, program, do, base=1, headers=None, **fields):
    url = reverse("program-change", args=[program.pk])
    return browser.post(url, {"do": do, "base_version": base, "week": "w1", **fields}, headers=headers)


def page(browser, program, **query):
    return browser.get(reverse("program-editor", args=[program.pk]), query)


def first_slot(program):
    program.refresh_from_db()
    return program.document["blocks"][0]["weeks"][0]["days"][0]["slots"][0]


def test_the_author_reads_the_program_as_written_with_its_sums(client, world, program):
    client.force_login(world.coach)
    text = page(client, program).content.decode()
    assert "3–4 × 8–12 @ 1–2 RIR" in text
    assert "Start lighter than you think." in text
    assert 'name="text"' in text


def test_a_colleague_reads_it_without_any_way_to_change_it(client, world, program):
    client.force_login(world.colleague)
    text = page(client, program).content.decode()
    assert "3 × 8–12 @ 1–2 RIR" in text
    assert "make your own copy" in text
    assert 'name="do"' not in text
    assert change(client, program, "remove;key=w1s1").status_code == 403


def test_a_reader_can_ask_for_another_training_status_and_other_weekdays(client, world, program):
    client.force_login(world.colleague)
    text = page(client, program, written_for="advanced", weekday_0="0", weekday_1="1").content.decode()
    assert '<option value="advanced" selected>' in text
    assert "under 48 hours later" in text


def test_without_a_script_a_change_comes_back_to_the_same_week(client, world, program):
    client.force_login(world.coach)
    reply = change(client, program, "prescribe;slot=w1s1", text="8-12 reps at 1-2 RIR for 3-4 sets")
    assert reply.status_code == 302
    assert reply.url == reverse("program-editor", args=[program.pk]) + "?week=w1"
    assert first_slot(program)["sets"] == [3, 4]


def test_a_script_gets_the_editor_with_the_new_version(client, world, library, program):
    client.force_login(world.coach)
    reply = change(client, program, f"add-slot;day=w1d1;exercise={library.reach.pk}", headers=HTMX)
    text = reply.content.decode()
    assert reply.status_code == 200
    assert 'data-version="2"' in text
    assert "<html" not in text
    program.refresh_from_db()
    new = program.document["blocks"][0]["weeks"][0]["days"][0]["slots"][-1]["key"]
    assert f'data-new-slot="{new}"' in text


# What the page takes of a quiet answer (static/programs/editor_apply.js).
TAKEN = (
    r'<li class="slot.*?</form>\s*</li>',
    r'<p class="day-facts".*?</p>',
    r'<aside id="editor-side".*?</aside>',
    r'<div class="weeks" id="editor-weeks".*?</div>',
    r'<input id="name-.*?>',
    r'<p class="editor-status".*?</p>',
)


def parts(text):
    """Return the parts that are taken, without their tokens, which are new in every answer."""
    text = re.sub(r'<input type="hidden" name="csrfmiddlewaretoken".*?>', "", text)
    return {pattern: re.findall(pattern, text, re.DOTALL) for pattern in TAKEN}


def quiet(browser, program, do, **fields):
    return change(browser, program, do, headers=HTMX, answer="quiet", **fields).content.decode()


@pytest.mark.parametrize(
    ("do", "fields", "drawn"),
    [
        ("prescribe;slot=w1s1", {"text": "5 x 5 @ 1"}, ["w1s1"]),
        ("prescribe;slot=w1s2", {"note": "Slowly."}, ["w1s2"]),
        ("rename;key=w1d1", {"name": "Monday"}, []),
    ],
)
def test_a_quiet_answer_has_what_changed_as_the_whole_page_has_it(client, world, program, do, fields, drawn):
    client.force_login(world.coach)
    answer = quiet(client, program, do, **fields)
    assert re.findall(r'id="slot-(\w+)"', answer) == drawn
    small, whole = parts(answer), parts(page(client, program, week="w1").content.decode())
    for pattern in TAKEN[1:-1]:
        assert small[pattern] == whole[pattern], pattern
    assert [one for one in whole[TAKEN[0]] if f'id="slot-{"".join(drawn)}"' in one] == small[TAKEN[0]]
    assert "version 2" in small[TAKEN[-1]][0]


def test_what_was_written_otherwise_comes_back_as_it_is_kept_though_nothing_changed(client, world, program):
    client.force_login(world.coach)
    answer = quiet(client, program, "prescribe;slot=w1s1", text="8 to 12 reps at 1-2 RIR for 3 sets")
    program.refresh_from_db()
    assert program.version == 1
    assert 'value="3 × 8–12 @ 1–2 RIR"' in answer


def test_a_ramp_draws_every_slot_of_the_week_that_it_changed(client, world, program):
    client.force_login(world.coach)
    known = {"weeks": "4", "every.rir": "3-1", "deload": "yes"}
    assert change(client, program, "ramp;block=b1", headers=HTMX, **known).status_code == 200
    program.refresh_from_db()
    base = program.document["blocks"][0]["ramp"]["base"]
    key = base["days"][0]["slots"][0]["key"]
    week = program.document["blocks"][0]["weeks"][1]
    theirs = week["days"][0]["slots"][0]["key"]
    # Written in the base week while another week is shown: there it is the slot that comes from it.
    answer = change(
        client,
        program,
        f"prescribe;slot={key};sets=6",
        base=2,
        headers=HTMX,
        answer="quiet",
        week=week["key"],
    ).content.decode()
    assert f'id="slot-{theirs}"' in answer


def test_who_copies_a_week_goes_on_writing_in_the_copy(client, world, program):
    client.force_login(world.coach)
    reply = change(client, program, "copy;key=w1")
    program.refresh_from_db()
    assert reply.url.endswith(f"?week={program.document['blocks'][0]['weeks'][1]['key']}")


def test_a_refused_prescription_is_told_at_its_field_and_kept(client, world, program):
    client.force_login(world.coach)
    reply = change(client, program, "prescribe;slot=w1s1", text="lots of sets")
    text = reply.content.decode()
    assert reply.status_code == 422
    assert 'value="lots of sets"' in text
    assert "was not understood" in text
    body = change(client, program, "prescribe;slot=w1s1", headers=HTMX, text="3 x 900").json()
    assert (body["key"], body["field"]) == ("w1s1", "text")
    assert first_slot(program)["reps"] == [8, 12]


@pytest.mark.parametrize(
    ("do", "base"),
    [("", 1), ("explode", 1), ("remove", 1), ("remove;key", 1), ("move-slot;slot=w1s1;day=w1d1;index=x", 1),
     ("remove;key=w1s1", "x"), ("swap;slot=w1s1;exercise=none", 1), ("undo", 1), ("return;version=9", 1)],
)  # fmt: skip
def test_a_malformed_change_is_refused_and_saves_nothing(client, world, program, do, base):
    client.force_login(world.coach)
    assert change(client, program, do, base=base).status_code == 422
    assert change(client, program, do, base=base, headers=HTMX).status_code == 422
    program.refresh_from_db()
    assert program.version == 1


def test_two_windows_the_second_is_told_who_changed_what_and_can_try_again(client, world, program):
    client.force_login(world.owner)
    change(client, program, "remove;key=w1s2")
    client.force_login(world.coach)
    reply = change(client, program, "prescribe;slot=w1s1", headers=HTMX, text="5 x 5")
    text = reply.content.decode()
    assert reply.status_code == 409
    assert "Olive" in text
    assert "Removed Overhead wand press-down" in text
    assert 'value="5 x 5"' in text
    assert 'data-version="2"' in text
    assert first_slot(program)["sets"] == 3
    assert change(client, program, "prescribe;slot=w1s1", text="5 x 5").status_code == 409
    change(client, program, "prescribe;slot=w1s1", base=2, text="5 x 5")
    assert first_slot(program)["sets"] == 5


def test_undo_from_an_old_window_cannot_be_repeated_on_the_newer_version(client, world, program):
    client.force_login(world.coach)
    change(client, program, "remove;key=w1s2")
    change(client, program, "remove;key=w1s1", base=2)
    reply = change(client, program, "undo", base=2, headers=HTMX)
    assert reply.status_code == 409
    assert "Make my change on the newer version" not in reply.content.decode()


def test_undo_and_redo_through_the_page(client, world, program):
    client.force_login(world.coach)
    change(client, program, "prescribe;slot=w1s1", text="5 x 5")
    change(client, program, "undo", base=2)
    assert first_slot(program)["sets"] == 3
    change(client, program, "redo", base=3)
    assert first_slot(program)["sets"] == 5
    change(client, program, "return;version=1", base=4)
    assert first_slot(program)["sets"] == 3


def test_a_program_that_is_put_away_cannot_be_changed(client, world, program):
    client.force_login(world.coach)
    client.post(reverse("program-archive", args=[program.pk]), {"archived": "yes"})
    assert change(client, program, "remove;key=w1s1").status_code == 422
    assert 'name="do"' not in page(client, program).content.decode()


def test_the_outlook_is_kept_and_two_days_cannot_share_a_weekday(client, world, program):
    client.force_login(world.coach)
    url = reverse("program-outlook", args=[program.pk])
    same = {"written_for": "novice", "weekday_0": 1, "weekday_1": 1}
    assert client.post(url, same, headers=HTMX).status_code == 422
    assert client.post(url, {**same, "weekday_1": 4}, headers=HTMX).status_code == 200
    program.refresh_from_db()
    assert (program.written_for, program.weekdays, program.version) == ("novice", [1, 4], 1)


def test_the_page_asks_the_database_as_often_for_few_exercises_as_for_many(
    client, world, library, program, django_assert_max_num_queries, django_assert_num_queries
):
    client.force_login(world.coach)
    page(client, program)
    # session, user, membership, program, may write, revisions and the one before (undo), exercises, credits,
    # groups, heads, what is tried; exercises to propose, their credits; who follows which version
    with django_assert_max_num_queries(15) as few:
        page(client, program)
    more = [make_exercise(f"More {n}", {library.bi: 1, library.tri: 0.5}) for n in range(12)]
    week = program.document["blocks"][0]["weeks"][0]
    week["days"][0]["slots"] += [slot(f"m{n}", one.pk) for n, one in enumerate(more)]
    program.save()
    with django_assert_num_queries(len(few)):
        page(client, program)
