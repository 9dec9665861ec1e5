"""Who looked at what, and who changed what: for the owner of a practice, and for clients about themselves."""

import datetime as dt

from django import forms
from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from accounts import access
from accounts.audit.words import words_for
from accounts.models import AuditEntry, Membership

PER_PAGE = 50


class AuditFilter(forms.Form):
    """What the entries are sifted by; a value that makes no sense sifts nothing."""

    q = forms.CharField(label=_("Client"), max_length=80, required=False)
    coach = forms.ModelChoiceField(
        Membership.objects.none(), label=_("Who"), required=False, empty_label=_("Everybody")
    )
    kind = forms.ChoiceField(label=_("What"), choices=[("", _("Everything")), *AuditEntry.Kind.choices], required=False)
    day = forms.DateField(label=_("Day"), required=False, widget=forms.DateInput(attrs={"type": "date"}))


@require_safe
@login_required
def audit(request: HttpRequest) -> HttpResponse:
    """Show an owner what the coaches of the practice looked at and changed, latest first."""
    access.access_membership(request.user, owner=True)
    form = AuditFilter(request.GET, label_suffix="")
    form.fields["coach"].queryset = Membership.objects.visible_to(request.user).select_related("user")
    form.fields["coach"].label_from_instance = lambda membership: str(membership.user)
    form.is_valid()
    chosen = form.cleaned_data
    rows = AuditEntry.objects.visible_to(request.user)
    if chosen.get("q"):
        rows = rows.filter(client__user__name__icontains=chosen["q"])
    if chosen.get("coach"):
        rows = rows.filter(actor=chosen["coach"].user_id)
    if chosen.get("kind"):
        rows = rows.filter(kind=chosen["kind"])
    if isinstance(chosen.get("day"), dt.date):
        rows = rows.filter(day=chosen["day"])
    context = {"form": form, "sifted": any(chosen.values()), **_page(request, rows), "room": "practice"}
    return render(request, "accounts/audit.html", context)


@require_safe
@login_required
def audit_own(request: HttpRequest) -> HttpResponse:
    """Show a client which coaches looked at their pages, and what was changed."""
    client = access.access_own_client(request.user)
    rows = AuditEntry.objects.visible_to(request.user).filter(client=client)
    return render(request, "accounts/audit_own.html", {**_page(request, rows), "room": "profile"})


def _page(request: HttpRequest, rows: object) -> dict[str, object]:
    page = Paginator(rows.select_related("actor", "client__user"), PER_PAGE).get_page(request.GET.get("page"))
    for entry in page:
        entry.words = words_for(entry.page)
    return {"page": page}
