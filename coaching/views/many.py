"""Answer many questions of one kind at once."""

from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from accounts import access
from coaching.forms import ManyReasonForm
from coaching.many.answer import accept_many
from coaching.many.rows import Many, chosen_prompts, many_of
from programs.sentences import words_for


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def answer_many(request: HttpRequest) -> HttpResponse:
    """List the chosen questions with their sums; accept those that are still chosen, and say what came of each."""
    access.access_membership(request.user)
    asked = request.POST if request.method == "POST" else request.GET
    kind = asked.get("kind", "")
    prompts = chosen_prompts(request.user, asked.getlist("prompt"), kind)
    if not prompts:
        messages.warning(request, _("None of the chosen questions waits for an answer. Choose some in the rows first."))
        return redirect("board")
    if request.method != "POST":
        return _list(request, many_of(kind, prompts), ManyReasonForm())
    many, reason = many_of(kind, prompts, request.POST), ManyReasonForm(request.POST)
    if not all([reason.is_valid(), *(row.form.is_valid() for row in many.rows)]):
        return _list(request, many, reason, status=422)
    outcomes = accept_many(rows=many.rows, coach=request.user, reason=reason.cleaned_data["reason"])
    done = sum(1 for one in outcomes if one.decision)
    context = {"room": "board", "kind": kind, "outcomes": outcomes, "done": done, "left": len(outcomes) - done}
    return render(request, "coaching/many_done.html", context)


def _list(request: HttpRequest, many: Many, reason: ManyReasonForm, status: int = 200) -> HttpResponse:
    exercises = {str(row.prompt.proposal["exercise"]) for row in many.rows if row.prompt.proposal.get("exercise")}
    context: dict[str, Any] = {
        "room": "board",
        "many": many,
        "reason": reason,
        "words": words_for(request.user.load_unit, exercises),
    }
    return render(request, "coaching/many.html", context, status=status)
