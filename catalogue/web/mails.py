"""Mails in the house's words: plain text, one recipient, marked as sent by a program (RFC 3834).

The first line of a template is the subject. Addresses in a mail begin with the configured one, never with the host that
somebody asked by.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from smtplib import SMTPException
from typing import Any

from django.conf import settings
from django.core.mail import EmailMessage
from django.http import HttpResponseRedirect
from django.template.loader import render_to_string

log = logging.getLogger(__name__)


def send_mail(to: str, template: str, context: dict[str, Any]) -> bool:
    """Send one mail and say whether the server took it; where it did not, the log tells why but not to whom."""
    subject, _line, text = render_to_string(template, context).strip().partition("\n")
    headers = {"Auto-Submitted": "auto-generated"}
    mail = EmailMessage(" ".join(subject.split()), text.strip() + "\n", to=[to], headers=headers)
    try:
        mail.send()
    except (OSError, SMTPException, ValueError):
        log.exception("A mail could not be sent.")
        return False
    return True


def sends_mail() -> bool:
    """Say whether a mail server is named, so that mails can be sent."""
    return bool(settings.SENDS_MAIL)


class RedirectThen(HttpResponseRedirect):
    """Leads on at once, and does something once the answer has left, so that its time tells nothing of it."""

    def __init__(self, address: str, then: Callable[[], object]) -> None:
        super().__init__(address)
        self.then = then

    def close(self) -> None:
        super().close()
        self.then()
