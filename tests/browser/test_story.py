"""The whole job once, with nothing faked: real processes, real mail links, a desk and a phone.

Once on the default set-up (SQLite, recompute in process), once on PostgreSQL with Redis and a worker process.
"""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser import story
from tests.browser.conftest import DESK, PHONE
from tests.browser.stack import running_stack

pytestmark = pytest.mark.browser


@pytest.fixture(params=["default", pytest.param("production", marks=pytest.mark.services)])
def stack(request, tmp_path):
    """The running program; the set-up with a worker needs the services that scripts/test starts."""
    if request.param == "default":
        with running_stack(tmp_path) as running:
            yield running
        return
    database = request.getfixturevalue("clean_database")
    redis = request.getfixturevalue("redis_url")
    with running_stack(tmp_path, database, redis) as running:
        yield running


@pytest.mark.timeout(600)
def test_coach_writes_client_trains_worker_computes_coach_decides(stack, open_page):
    desk: Page = open_page(**DESK)
    phone: Page = open_page(**PHONE)
    story.sign_up_coach(desk, stack)
    link = story.invite_client(desk, stack)
    story.accept_invitation(phone, link)
    story.write_block(desk, stack)
    story.copy_week(desk)
    story.assign_block(desk)
    before = story.sets_ahead(phone, stack)
    assert before == 2 * (9 + 8)
    phone.goto(f"{stack.url}/train/plan/")
    expect(phone.locator("main")).to_contain_text("3 × 8–12 @ 1–2 RIR")

    story.log_first_day(phone, stack)
    row = story.board_row(desk, stack, re.compile("^1 of "))
    expect(row).to_contain_text("Pain of 6 of 10 was reported")
    expect(row).to_contain_text("9 of 17")

    story.accept_prompt(desk, stack)
    after = story.sets_ahead(phone, stack)
    assert 0 < after < before - 9, "the accepted prompt did not reach the phone's plan"
