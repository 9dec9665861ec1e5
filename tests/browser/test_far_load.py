"""A load far from the suggestion on the phone: asked about once beside its field, and taken, offline too."""

import pytest
from playwright.sync_api import expect

from logbook.models import SetLog
from tests.browser.offline import HERE, a_week, open_session, sent

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
WRONG = HERE + "[data-wrong=load]"


@pytest.fixture
def session(phone, live_server, sign_in, world):
    """The phone on today's session; 42.5 kg is suggested."""
    gym = a_week(world)
    sign_in(phone, gym.client.user)
    open_session(phone, live_server, gym.planned)
    return phone


def log(page, load=None):
    if load is not None:
        page.fill(HERE + "[name=load]", load)
    page.locator(HERE + "[data-log]").tap()


def test_ten_times_the_suggestion_is_asked_about_once_and_a_yes_is_saved_offline(session):
    session.context.set_offline(True)
    log(session, "425")
    expect(session.locator(WRONG)).to_contain_text("Really? Before it was 42.5 kg")
    expect(session.locator(HERE + "[name=load]")).to_be_focused()
    assert session.locator(HERE + "[data-set]").count() == 0
    session.locator(HERE + "[data-confirm]").tap()
    log(session)
    expect(session.locator(HERE + "[data-set]")).to_have_count(1)
    # The next set is filled in with what was confirmed: it is not asked about again.
    session.fill(HERE + "[name=reps]", "8")
    log(session)
    expect(session.locator(HERE + "[data-set]")).to_have_count(2)
    session.context.set_offline(False)
    session.evaluate("dispatchEvent(new Event('online'))")
    sent(session)
    assert list(SetLog.objects.values_list("load", flat=True)) == [425, 425]
    assert SetLog.objects.get(number=1).confirmed, "the yes was sent along"


def test_a_yes_is_not_asked_for_again_when_the_set_is_edited_and_gone_with_the_load(session):
    log(session, "425")
    session.locator(HERE + "[data-confirm]").tap()
    log(session)
    sent(session)
    edit = session.locator(HERE + "[data-set] [data-edit]").first
    edit.tap()
    session.fill(HERE + "[name=reps]", "7")
    log(session)
    sent(session)
    assert SetLog.objects.values("load", "reps", "confirmed").get() == {"load": 425, "reps": 7, "confirmed": True}
    edit.tap()
    log(session, "42.5")
    sent(session)
    assert SetLog.objects.values("load", "confirmed").get() == {"load": 42.5, "confirmed": False}


def test_a_tenth_is_asked_about_in_the_unit_that_is_typed_and_mending_it_takes_the_question_away(session):
    session.locator(HERE + "label.small-choice", has_text="lb").tap()
    log(session, "9")
    expect(session.locator(WRONG)).to_contain_text("Really? Before it was 93.7 lb")
    session.fill(HERE + "[name=load]", "90")
    expect(session.locator(HERE + "[data-confirm]")).to_be_hidden()
    log(session)
    expect(session.locator(HERE + "[data-set]")).to_have_count(1)
    sent(session)
    assert SetLog.objects.get().load == 90


def test_a_warm_up_may_be_as_light_as_it_likes(session):
    session.fill(HERE + "[name=load]", "10")
    session.locator(HERE + "[name=warm_up]").check()
    log(session)
    expect(session.locator(HERE + "[data-set]")).to_have_count(1)
