"""Letters of this room: plain text with an HTML twin, sent after the transaction commits."""

from typing import Any

from django.core.mail import EmailMultiAlternatives
from django.db import transaction
from django.template.loader import render_to_string


def send_on_commit(*, to: str, subject: str, template: str, context: dict[str, Any]) -> None:
    """Send accounts/mail/<template>.txt and .html once the change they speak of is saved.

    A mail server that fails is logged and does not undo or hide the change: the pages offer to send again.
    """
    letter = EmailMultiAlternatives(subject, render_to_string(f"accounts/mail/{template}.txt", context), to=[to])
    letter.attach_alternative(render_to_string(f"accounts/mail/{template}.html", context), "text/html")
    transaction.on_commit(letter.send, robust=True)
