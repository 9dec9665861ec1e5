"""Every derived number leads to its reasons, and what these list gives the number shown."""

import datetime as dt
import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from accounts.models import User
from coaching.models import FlagRow, Prompt, WeekSummary
from coaching.recompute import run
from coaching.why.kinds import KINDS
from coaching.why.links import why_link
from logbook.models import Session, SetLog
from programs.models import PlannedSlot
from tests.coaching import again
from tests.coaching import factories as make
from tests.coaching.markup import Answer, read
from tests.conftest import make_world, rows_of_a_module

pytestmark = pytest.mark.django_db


@pytest.fixture(scope="module")
def world(django_db_setup, django_db_blocker):
    """The people, and all that `train_and_recompute` makes, once: the tests here read."""
    with rows_of_a_module(django_db_setup, django_db_blocker):
        world = make_world()
        train_and_recompute(world, make.make_catalogue())
        yield world


@pytest.fixture
def trained(world):
    return world.client


def train_and_recompute(world, exercises):
    """Give the client everything that a page can show: pain, extras, a late session, sets without RIR, missed days."""
    make.train(world.client, world.coach, exercises, weeks=12, fade=2, seed=3, keep=0.9)
    sessions = list(world.client.sessions.order_by("-date"))
    make.report_pain(sessions[0], exercises["curl"], 6)
    make.report_pain(sessions[0], exercises["squat"], 4, site="knee")
    make.weigh(world.client, make.monday(2) + dt.timedelta(days=1), 81.5)
    make.log_set(sessions[0], exercises["squat"], 9, load=100.0, rir=6.0)
    make.log_set(sessions[1], exercises["curl"], 9, load=14.0, warm_up=True)
    SetLog.objects.filter(session=sessions[2], number=1).update(rir=None)
    SetLog.objects.filter(session=sessions[3], side="left").update(reps=8, rir=1.0)
    # Done a week late: its sets belong to the plan of the week before.
    Session.objects.filter(pk=sessions[4].pk).update(date=sessions[4].date + dt.timedelta(days=7), minutes=None)
    make.request(world.client, make.monday(14))
    run.work_off(world.client.pk)


class Walk:
    """Follows each marked number of a page to its answer, and computes it again."""

    def __init__(self, client, unit="kg"):
        self.client, self.unit, self.seen, self.answers, self.kinds = client, unit, 0, {}, set()

    def page(self, address, query=None):
        answer = self.client.get(address, query or {})
        assert answer.status_code == 200, address
        return read(answer.content.decode())

    def answer(self, address):
        if address not in self.answers:
            answer = self.client.get(address)
            assert answer.status_code == 200, address
            found = Answer(answer.content.decode())
            kind = re.search(r"/why/([\w-]+)/", address)[1]
            self.kinds.add(kind)
            self.answers[address] = (kind, found, again.KINDS[kind](found, self.unit))
        return self.answers[address]

    def walk(self, address, query=None):
        root = self.page(address, query)
        for node in root.all(data_why=None):
            names, numbers = node.attrs["data-why"].split(), node.numbers()
            if not numbers:
                continue
            assert len(names) == len(numbers), (address, names, node.text())
            link = node.near("data-why-at") if "href" not in node.attrs else node.attrs["href"]
            for name, shown in zip(names, numbers, strict=True):
                if name != "-":
                    self.compare(link.split("#")[0], name, shown)
        return root

    def compare(self, address, name, shown):
        _kind, answer, found = self.answer(address)
        assert name in answer.figures, (address, name)
        ours, text = found[name], shown.replace("−", "-")
        number = float(text)
        self.seen += 1
        if isinstance(ours, tuple):
            return self.within(ours, number, (address, name, shown))
        decimals = len(text.partition(".")[2])
        assert ours is not None, (address, name, shown)
        # Beside "harder" or "easier" a distance stands without its sign.
        gap = abs(abs(ours) - abs(number)) if name == "mean_rir_gap" else abs(ours - number)
        assert gap <= 0.5 * 10**-decimals + 1e-6, (address, name, shown, ours)
        return None

    @staticmethod
    def within(ours, number, said):
        kind, *rest = ours
        if kind == "one of":
            assert number in rest[0], (said, rest)
        elif kind == "less than":
            assert number < rest[0], (said, rest)
        else:
            last, percent = rest
            assert last < number <= last * (1 + (percent + 0.05) / 100) + 1e-9, (said, rest)


def bare(root, cells):
    """The cells in which a number stands without its why."""
    return [
        cell.text(without=("data-why",)).strip()
        for cell in cells(root)
        if re.search(r"\d", cell.text(without=("data-why",)))
    ]


def numeric_cells(root):
    return [cell for cell in root.all(tag="td") if cell.attrs.get("class") == "n"]


def counted_cells(root):
    return [td for td in root.all(tag="td") if td.attrs.get("data-label") in ("Sessions", "Sets", "Effort")]


def test_every_number_on_the_board_leads_to_what_gives_it(client, trained, world):
    client.force_login(world.coach)
    walk = Walk(client)
    for ago in (0, 1, 2):
        root = walk.walk(reverse("board"), {"week": make.monday(ago).isoformat()})
        assert bare(root, counted_cells) == []
        for item in root.all(tag="ul"):
            if "muscles" in (item.attrs.get("class") or ""):
                assert not re.search(r"\d", item.text(without=("data-why",)).replace("of", "")), item.text()
    assert {"kept", "volume", "urgency"} <= walk.kinds
    assert walk.seen > 60


def test_every_number_of_the_clients_week_leads_to_what_gives_it(client, trained, world):
    client.force_login(world.coach)
    walk = Walk(client)
    for ago in (0, 1, 2, 12):
        root = walk.walk(reverse("client-page", args=[trained.pk]), {"week": make.monday(ago).isoformat()})
        tables = [one for one in root.all(tag="table") if "volume" in (one.attrs.get("class") or "")]
        assert all(bare(table, numeric_cells) == [] for table in tables)
        days = root.all(tag="section", aria_labelledby="check-ins")[0]
        assert bare(days, numeric_cells) == []
    assert {"volume", "tally", "load", "check-in", "target"} <= walk.kinds
    assert walk.seen > 150


def walk_strength(walk, trained, address):
    for pk in trained.strength_points.values_list("exercise", flat=True).distinct().order_by("exercise"):
        assert bare(walk.walk(address, {"exercise": pk, "weeks": 13}), numeric_cells) == []


@pytest.mark.parametrize("unit", ["kg", "lb"])
def test_every_number_under_the_plots_leads_to_what_gives_it(client, trained, world, unit):
    User.objects.filter(pk=world.coach.pk).update(load_unit=unit)
    client.force_login(world.coach)
    walk = Walk(client, unit)
    walk_strength(walk, trained, reverse("client-strength", args=[trained.pk]))
    if unit == "kg":
        for group in ("triceps", "front-delt"):
            root = walk.walk(reverse("client-volume", args=[trained.pk]), {"group": group, "weeks": 13})
            assert bare(root, numeric_cells) == []
        root = walk.walk(reverse("client-sessions", args=[trained.pk]), {"weeks": 13})
        assert bare(root, numeric_cells) == []
    root = walk.walk(reverse("client-well-being", args=[trained.pk]), {"weeks": 13})
    assert bare(root, numeric_cells) == []
    wanted = {"strength", "trend", "check-in", "mass", "pain"}
    assert walk.kinds >= (wanted | {"volume", "head", "kept", "load"} if unit == "kg" else wanted)
    assert walk.seen > 200


def test_every_number_of_the_clients_own_progress_leads_to_what_gives_it(client, trained):
    client.force_login(trained.user)
    walk = Walk(client)
    walk_strength(walk, trained, reverse("progress"))
    assert bare(walk.walk(reverse("progress"), {"group": "triceps", "weeks": 13}), numeric_cells) == []
    assert {"strength", "trend", "volume", "head", "check-in", "mass"} <= walk.kinds
    assert all(address.startswith("/train/why/") for address in walk.answers)


def test_every_flag_lists_what_gives_the_numbers_of_its_sentence(client, trained, world):
    client.force_login(world.coach)
    rules = set()
    for row in FlagRow.objects.filter(client=trained):
        answer = client.get(reverse("why-flag", args=[row.pk]))
        assert answer.status_code == 200
        listed = Answer(answer.content.decode())
        found = again.flag(listed, row.rule_id)
        rules.add(row.rule_id)
        figures = {**row.inputs["values"], **{k: v for k, v in row.params.items() if k in found}}
        for name, value in figures.items():
            if name in found:
                assert abs(found[name] - value) <= 0.051, (row.rule_id, name, value, found[name])
        said = {name: value for name, value in row.params.items() if isinstance(value, int | float)}
        assert set(said) <= {*found, *listed.figures, "days"}, (row.rule_id, said)
        assert not answer.context["answer"].stale, row.rule_id
    assert {"pain.report", "sessions.missed", "check_in.below_own_baseline", "performance.under_expected"} <= rules


def test_every_question_lists_what_gives_its_numbers(client, trained, world):
    client.force_login(world.coach)
    kinds = set()
    for row in Prompt.objects.filter(client=trained):
        answer = client.get(reverse("why", args=[trained.pk, "prompt", row.pk]))
        assert answer.status_code == 200
        listed = Answer(answer.content.decode())
        slots, share = listed.rows("slots"), row.proposal.get("sets_share")
        assert sum(one["before"] for one in slots) == row.proposal["sets"][0]
        assert sum(one["after"] for one in slots) == row.proposal["sets"][1]
        if share:
            # Halves down, and always fewer where there is more than one.
            for one in slots:
                half = int(one["before"] * share + 0.5 - 1e-9)
                assert one["after"] == (one["before"] if one["before"] <= 1 else max(1, min(half, one["before"] - 1)))
            families = {one["family"] for one in listed.rows("flags")}
            assert set(row.inputs["signs"]) <= families
        assert not answer.context["answer"].stale
        kinds.add(row.kind)
    assert "deload" in kinds


def test_the_urgency_leads_on_to_each_of_its_flags(client, trained, world):
    client.force_login(world.coach)
    week = WeekSummary.objects.filter(client=trained, urgency__gt=0).latest("week")
    page = read(client.get(reverse("why", args=[trained.pk, "urgency", week.week.isoformat()])).content.decode())
    table = page.all(data_table="parts")[0]
    flags = [part for part in week.urgency_reasons if "rule" in part]
    links = [one.attrs["href"] for one in table.all(tag="a")]
    assert len([one for one in links if "/flag/" in one]) == len(flags) > 0


def test_an_answer_says_the_rule_its_source_how_sure_it_is_and_the_dispute(client, trained, world):
    client.force_login(world.coach)
    week = make.monday(1).isoformat()
    page = client.get(reverse("why", args=[trained.pk, "load", week])).content.decode()
    for words in ("load.session_rpe, version 1", "Foster 1998", "How sure is it", "Impellizzeri et al. 2021"):
        assert words in page
    assert reverse("method", args=["session-load"]) in page


def test_nonsense_in_an_address_is_not_found(client, world):
    client.force_login(world.coach)
    for kind in (*KINDS, "nothing"):
        for path in ("x", "2026-99-99", "x/y", "2020-01-06/1", "1/2/3/4/5", "00000000-0000-0000-0000-000000000000/1"):
            address = reverse("why", args=[world.client.pk, kind, path])
            assert client.get(address).status_code == 404, address


def test_a_client_reads_their_own_answers_and_no_one_elses(client, trained, world):
    week, slot = make.monday(1).isoformat(), PlannedSlot.objects.filter(session__client=trained).last()
    client.force_login(trained.user)
    assert client.get(reverse("own-why", args=["kept", week])).status_code == 200
    assert client.get(reverse("own-why", args=["target", slot.pk])).status_code == 200
    assert client.get(reverse("own-why", args=["urgency", week])).status_code == 404
    assert client.get(reverse("own-why", args=["flag", FlagRow.objects.first().pk])).status_code == 404
    client.force_login(world.other_client.user)
    assert client.get(reverse("own-why", args=["target", slot.pk])).status_code == 404
    assert client.get(reverse("own-why", args=["kept", week])).status_code == 404


def test_an_entry_changed_since_is_said(client, trained, world):
    client.force_login(world.coach)
    day = trained.check_ins.order_by("date").last()
    address = reverse("why", args=[trained.pk, "check-in", day.date.isoformat()])
    assert "brought up to date" not in client.get(address).content.decode()
    type(day).objects.filter(pk=day.pk).update(mood=1 if day.mood != 1 else 5)
    assert "brought up to date" in client.get(address).content.decode()


@pytest.mark.parametrize("client_id", [7, None])
def test_a_link_is_the_address_that_django_would_make(client_id):
    args = ["volume", "2026-11-16/chest"]
    expected = reverse("own-why", args=args) if client_id is None else reverse("why", args=[client_id, *args])
    assert why_link("volume", dt.date(2026, 11, 16), "chest", client_id=client_id) == expected


def paths(client):
    week, flag = make.monday(1).isoformat(), FlagRow.objects.filter(client=client, week=make.monday(1)).first()
    point = client.strength_points.order_by("-date").first()
    return {
        "kept": week,
        "volume": f"{week}/chest",
        "load": week,
        "trend": f"{week}/{point.exercise_id}",
        "strength": f"{point.session_id}/{point.exercise_id}",
        "urgency": week,
        "flag": flag.pk,
        "target": PlannedSlot.objects.filter(session__client=client, target_reps__isnull=False).last().pk,
    }


def test_an_answer_costs_the_same_few_queries_after_years(client, trained, world):
    from tests.coaching.test_recompute_cost import years_of_history

    def count():
        found = {}
        for kind, path in paths(trained).items():
            with CaptureQueriesContext(connection) as seen:
                assert client.get(reverse("why", args=[trained.pk, kind, path])).status_code == 200
            found[kind] = len(seen)
        return found

    client.force_login(world.coach)
    few = count()
    before = SetLog.objects.count()
    years_of_history(trained, {"squat": make.Exercise.objects.get(slug="squat")}, copies=8, apart=13)
    assert SetLog.objects.count() > 8 * before
    assert count() == few
    assert max(few.values()) <= 26, few
