"""Answer a prompt; look at an answer; take it back."""

import datetime as dt
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST, require_safe

from accounts import access
from coaching.forms import AcceptForm, RefuseForm
from coaching.forms_answers import answer_form, ids_of
from coaching.models import Decision, Prompt
from coaching.reads.answered import accepted_words
from coaching.reads.client import Question
from coaching.reads.proposal import exercises_in, proposal_of
from coaching.services.conflict import Conflict
from coaching.services.decision import decision_accept, decision_refuse, decision_undo, digest
from programs.sentences import words_for


@login_required
@require_safe
def prompt_page(request: HttpRequest, prompt_id: UUID) -> HttpResponse:
    """Show one question with its numbers."""
    prompt = access.access_write(Prompt.objects.select_related("client__user"), request.user, pk=prompt_id)
    return _page(request, prompt)


@login_required
@require_POST
def prompt_accept(request: HttpRequest, prompt_id: UUID) -> HttpResponse:
    """Accept, as proposed or as chosen, and change the plan or write to the client."""
    prompt = access.access_write(Prompt.objects.select_related("client__user"), request.user, pk=prompt_id)
    form = answer_form(prompt, digest(prompt.proposal), request.POST)
    if not form.is_valid():
        return _page(request, prompt, status=422, accept_form=form)
    known = {"reason": form.cleaned_data["reason"], "seen": form.cleaned_data["seen"], "choice": form.choice()}
    try:
        decision = decision_accept(prompt=prompt, coach=request.user, **known)
    except Conflict as conflict:
        return _page(request, prompt, status=409, accept_form=form, conflict=conflict)
    return _answered(request, decision, accepted_words(decision))


@login_required
@require_POST
def prompt_refuse(request: HttpRequest, prompt_id: UUID) -> HttpResponse:
    """Refuse, and leave the plan."""
    prompt = access.access_write(Prompt.objects.select_related("client__user"), request.user, pk=prompt_id)
    form = RefuseForm(request.POST, auto_id=ids_of(prompt))
    if not form.is_valid():
        return _page(request, prompt, status=422, refuse_form=form)
    try:
        decision = decision_refuse(prompt=prompt, coach=request.user, reason=form.cleaned_data["reason"])
    except Conflict as conflict:
        return _page(request, prompt, status=409, refuse_form=form, conflict=conflict)
    return _answered(request, decision, _("Refused: the plan stays as it is."))


def _answered(request: HttpRequest, decision: Decision, words: str) -> HttpResponse:
    """Say what was done: under the board's row, where the answer was given there, else on a page."""
    if request.htmx:
        return render(request, "coaching/parts/answered.html", {"decision": decision, "text": words})
    messages.success(request, words)
    if decision.answer == Decision.Answer.ACCEPT:
        return redirect("decision", decision.pk)
    return redirect("client-page", decision.client_id)


def _page(
    request: HttpRequest,
    prompt: Prompt,
    *,
    status: int = 200,
    conflict: Conflict | None = None,
    accept_form: AcceptForm | None = None,
    refuse_form: RefuseForm | None = None,
) -> HttpResponse:
    """Render the question as it is now; what was typed stays in its field, what was seen is renewed."""
    current = Prompt.objects.select_related("client__user", "client__practice").filter(pk=prompt.pk).first() or prompt
    standing = Decision.objects.select_related("coach").filter(prompt_id=prompt.pk, undone_at=None).first()
    words = words_for(request.user.load_unit, exercises_in(current.proposal))
    seen = digest(current.proposal)
    # Once it is answered, the page tells what was proposed; before, what an answer would still change.
    changed = {one["slot"] for one in current.proposal["slots"]} if standing else None
    if accept_form is None:
        accept_form = answer_form(current, seen)
    elif conflict:
        accept_form = answer_form(current, seen, reason=accept_form.data.get("accept-reason", ""))
    context: dict[str, Any] = {
        "room": "clients",
        "client": current.client,
        "question": Question(current, proposal_of(current.proposal, words, changed), seen),
        "standing": standing,
        "conflict": conflict,
        "words": words,
        "accept_form": accept_form,
        "refuse_form": refuse_form or RefuseForm(auto_id=ids_of(current)),
    }
    # Under a row of the board, htmx swaps whatever comes back: an error is no failure of the request.
    template, code = ("coaching/parts/in_row.html", 200) if request.htmx else ("coaching/prompt.html", status)
    return render(request, template, context, status=code)


@login_required
@require_safe
def decision_page(request: HttpRequest, decision_id: int) -> HttpResponse:
    """Show what was decided, what it changed, and what undo could not put back."""
    rows = Decision.objects.select_related("client__user", "coach")
    decision = access.access_write(rows, request.user, pk=decision_id)
    words = words_for(request.user.load_unit, exercises_in(decision.proposal))
    accepted = decision.answer == Decision.Answer.ACCEPT
    changed = {one["slot"] for one in (decision.changes if accepted else decision.proposal["slots"])}
    context = {
        "room": "clients",
        "client": decision.client,
        "decision": decision,
        "proposal": proposal_of(decision.proposal, words, changed),
        "kept": _not_put_back(decision),
        "words": words,
    }
    return render(request, "coaching/decision.html", context)


def _not_put_back(decision: Decision) -> list[dict[str, Any]]:
    """Return one row a session that undo left as it was: day, date and why."""
    rows = {one["session"]: one for one in decision.changes if one.get("why")}
    return [{"day": one["day"], "date": dt.date.fromisoformat(one["date"]), "why": one["why"]} for one in rows.values()]


@login_required
@require_POST
def decision_take_back(request: HttpRequest, decision_id: int) -> HttpResponse:
    """Undo a decision as far as nobody has trained it yet."""
    decision = access.access_write(Decision.objects.all(), request.user, pk=decision_id)
    try:
        decision = decision_undo(decision=decision, now=timezone.now())
    except Conflict as conflict:
        said, text = messages.error, conflict.message
    else:
        said, text = messages.success, _undone(len({one["session"] for one in decision.changes if one["why"]}))
    if request.htmx:
        return render(request, "coaching/parts/answered.html", {"decision": decision, "text": text})
    said(request, text)
    return redirect(reverse("decision", args=[decision.pk]))


def _undone(kept: int) -> str:
    if not kept:
        return _("Taken back: the plan is as it was.")
    text = ngettext(
        "Taken back, but for %(n)s session that was begun or rewritten since.",
        "Taken back, but for %(n)s sessions that were begun or rewritten since.",
        kept,
    )
    return text % {"n": kept}
