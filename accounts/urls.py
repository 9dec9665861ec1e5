"""The people room. Addresses under /account/ are allauth's (coaching/urls.py)."""

from django.urls import path

from accounts.models import Invitation
from accounts.views import acceptance, audit, clients, cover, home, invitations, practice, profile

urlpatterns = [
    path("", home.home, name="home"),
    path("you/", profile.profile, name="profile"),
    path("you/seen/", audit.audit_own, name="audit-own"),
    path("you/sign-out-everywhere/", profile.sign_out_everywhere, name="sign-out-everywhere"),
    path("practice/", practice.practice, name="practice"),
    path("practice/new/", home.practice_start, name="practice-start"),
    path("practice/leave/", practice.membership_leave, name="membership-leave"),
    path("practice/coaches/<int:membership_id>/", practice.membership_edit, name="membership-edit"),
    path("practice/coaches/<int:membership_id>/clients/", cover.hand_over, name="hand-over"),
    path("practice/cover/", cover.cover_new, name="cover-new"),
    path("practice/cover/<int:cover_id>/end/", cover.cover_end, name="cover-end"),
    path("practice/audit/", audit.audit, name="audit"),
    path("practice/coaches/invite/", invitations.invite, {"kind": Invitation.Kind.COACH.value}, name="coach-invite"),
    path("practice/invitations/<int:invitation_id>/", invitations.invitation_detail, name="invitation-detail"),
    path("practice/invitations/<int:invitation_id>/resend/", invitations.resend, name="invitation-resend"),
    path("practice/invitations/<int:invitation_id>/withdraw/", invitations.withdraw, name="invitation-withdraw"),
    path("invitations/<str:token>/", acceptance.accept, name="invitation-accept"),
    path("clients/", clients.client_list, name="client-list"),
    path("clients/invite/", invitations.invite, {"kind": Invitation.Kind.CLIENT.value}, name="client-invite"),
    path("clients/<int:client_id>/edit/", clients.client_edit, name="client-edit"),
    path("clients/<int:client_id>/coach/", clients.client_coach, name="client-coach"),
    path("engagements/<int:engagement_id>/end/", clients.engagement_close, name="engagement-end"),
]
