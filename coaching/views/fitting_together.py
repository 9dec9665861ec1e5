"""Decide what is proposed alike to several clients, once for all of them."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from accounts.audit.preview import changed_nothing
from coaching.fitting.rows import fit_page
from coaching.fitting.together_form import TogetherForm
from coaching.views.fitting import back_to, clients_of, fitting_of, render_page
from programs.services.assignment_make import AssignError
from programs.services.fitting import assigned_already, fitting_choose_together


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def fitting_together(request: HttpRequest, fitting_id: int) -> HttpResponse:
    """Keep what is done for the ticked clients of a group, or go back to what is proposed to them. Who reads this
    address, which a refused form leaves in the browser, comes to the fitting."""
    fitting = fitting_of(request, fitting_id)
    if request.method != "POST":
        return redirect("fitting", fitting.pk)
    shown = request.POST.get("show", "")
    if fitting.assigned_at:
        messages.error(request, str(assigned_already()))
        return changed_nothing(redirect("fitting", fitting.pk))
    page = fit_page(fitting, clients_of(request, fitting))
    group = next((one for one in page.groups if one.key == request.POST.get("group")), None)
    if group is None:
        messages.error(request, _("This is proposed otherwise meanwhile. Look at it again; nothing was changed."))
        return changed_nothing(redirect(back_to(fitting, shown, "together")))
    form = TogetherForm(request.POST, group=group, exercises=page.library.pool.exercises)
    if not form.is_valid():
        return render_page(request, fitting, page, bound=form, status=422)
    choices = form.choices(fitting.choices)
    if "anew" in request.POST:
        choices = {pk: dict.fromkeys(some, None) for pk, some in choices.items()}
    try:
        fitting_choose_together(fitting=fitting, choices=choices)
    except AssignError as refused:
        messages.error(request, str(refused))
        return changed_nothing(redirect("fitting", fitting.pk))
    words = ngettext("Kept for %(count)s client.", "Kept for %(count)s clients.", len(choices))
    messages.success(request, words % {"count": len(choices)})
    return redirect(back_to(fitting, shown, group.place))
