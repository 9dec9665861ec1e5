"""The links of a hand-out, as its coach sees them."""

from typing import Any

from django import forms
from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from accounts.access import access_read, access_write
from programs.handout.options import SWITCHES, Options, read_options, stored_options
from programs.handout.source import Source, source_of_assignment, source_of_program
from programs.models import HandoutLink, Program
from programs.services.handout_links import DAYS, MOST_DAYS, handout_link_create, handout_link_withdraw
from programs.views.assignment_detail import assignments_of
from programs.views.program_forms import PlainForm

LINK_KEY = "handout_link"
PAGE = 20


class LinkForm(PlainForm):
    days = forms.IntegerField(
        label=gettext_lazy("For how many days it works"), min_value=1, max_value=MOST_DAYS, initial=DAYS
    )


@login_required
@never_cache
@require_http_methods(["GET", "POST"])
def program_links(request: HttpRequest, program_id: int) -> HttpResponse:
    """List a program's links, and make one to the version that stands now."""
    program = access_read(Program.objects.all(), request.user, pk=program_id)
    return _links(request, source_of_program(program), {"program": program}, {"program": program, "room": "programs"})


@login_required
@never_cache
@require_http_methods(["GET", "POST"])
def assignment_links(request: HttpRequest, assignment_id: int) -> HttpResponse:
    """List the links of a client's copy, and make one; for those who may change the copy."""
    assignment = access_write(assignments_of(), request.user, pk=assignment_id)
    context = {"assignment": assignment, "room": "clients"}
    return _links(request, source_of_assignment(assignment), {"assignment": assignment}, context)


@login_required
@require_POST
def handout_link_end(request: HttpRequest, link_id: int) -> HttpResponse:
    """Withdraw a link."""
    link = access_write(HandoutLink.objects.all(), request.user, pk=link_id)
    handout_link_withdraw(link=link)
    messages.success(request, _("Withdrawn. The link no longer works."))
    return redirect(_address(link.program_id, link.assignment_id))


def _links(request: HttpRequest, source: Source, target: dict[str, Any], context: dict[str, Any]) -> HttpResponse:
    weeks = source.weeks()
    values = request.POST if request.method == "POST" else request.GET
    options = read_options(values, len(weeks))
    form = LinkForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        issued = handout_link_create(user=request.user, options=options, days=form.cleaned_data["days"], **target)
        secret = reverse("handout-shared", args=[issued.token])
        request.session[LINK_KEY] = [issued.link.pk, request.build_absolute_uri(secret)]
        return redirect(_address(issued.link.program_id, issued.link.assignment_id))
    rows = HandoutLink.objects.visible_to(request.user).filter(**target).select_related("created_by")
    page = Paginator(rows, PAGE).get_page(request.GET.get("page"))
    now = timezone.now()
    mine = set(HandoutLink.objects.writable_by(request.user).filter(**target).values_list("pk", flat=True))
    for link in page:
        link.works = link.is_open(now)
        link.shows = _words(stored_options(link.options, len(weeks)), source)
        link.can_end = link.works and link.pk in mine
    context |= {
        "form": form,
        "options": options,
        "shows": _words(options, source),
        "page": page,
        "switches": [(name, getattr(options, name)) for name in SWITCHES],
        "fresh": request.session.pop(LINK_KEY, [0, ""])[1],
    }
    return render(request, "programs/handout_links.html", context, status=422 if form.errors else 200)


def _words(options: Options, source: Source) -> str:
    """Say what a hand-out with these options shows."""
    weeks = {one.place: one.label for one in source.weeks()}
    first, last = weeks.get(options.first, ""), weeks.get(options.last, "")
    parts = [first if first == last else _("%(first)s to %(last)s") % {"first": first, "last": last}]
    if options.guides:
        parts.append(_("set-up, cues and cautions"))
    if options.guides and options.reasons:
        parts.append(_("reasons"))
    if options.boxes:
        parts.append(_("room to write"))
    if options.client:
        parts.append(_("the client's name"))
    if options.loads:
        parts.append(_("starting loads"))
    return "; ".join(part for part in parts if part)


def _address(program_id: int | None, assignment_id: int | None) -> str:
    if program_id:
        return reverse("program-handout-links", args=[program_id])
    return reverse("assignment-handout-links", args=[assignment_id])
