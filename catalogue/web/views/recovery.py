"""Back in after a forgotten password: a mail with an address that sets a new one, once and for an hour.

Whatever address is typed, the answer is the same and takes as long: who is here is looked up after it has left.
"""

from __future__ import annotations

from functools import partial
from typing import Any, cast

from django.conf import settings
from django.contrib.auth.forms import PasswordResetForm, SetPasswordForm
from django.contrib.auth.models import User
from django.contrib.auth.tokens import default_token_generator
from django.contrib.auth.views import PasswordResetConfirmView
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse, reverse_lazy
from django.utils import timezone
from django.utils.encoding import force_bytes
from django.utils.http import urlsafe_base64_encode
from django.utils.translation import gettext as _
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_safe

from catalogue.actions.mails import TooManyMails, count_mail
from catalogue.models import MailPurpose
from catalogue.web.askers import address_of
from catalogue.web.forms.sign import NewPasswordForm, RecoverForm
from catalogue.web.mails import RedirectThen, send_mail, sends_mail
from catalogue.web.notices import say
from catalogue.web.views.entry import secret


@require_http_methods(["GET", "POST"])
def recover(request: HttpRequest) -> HttpResponse:
    """/account/recover/ — the address to which the way back is sent; where no mails are sent, what to do instead."""
    form = RecoverForm(request.POST if request.method == "POST" else None)
    if not sends_mail() or not form.is_bound or not form.is_valid():
        return render(request, "account/recover.html", {"form": form, "sends_mail": sends_mail()})
    then = partial(send_ways_back, form.cleaned_data["email"], address_of(request))
    return RedirectThen(reverse("recover-sent"), then)


@require_safe
def recover_sent(request: HttpRequest) -> HttpResponse:
    """/account/recover/sent/ — the same for everybody: what to look for, and what to do where nothing comes."""
    return render(request, "account/recover_sent.html")


def send_ways_back(email: str, asker: str) -> None:
    """Send everybody who signs in with a password and has this address a way back, unless too many were asked for."""
    try:
        count_mail(MailPurpose.RECOVERY, recipient=email, asker=asker, now=timezone.now())
    except TooManyMails:
        return
    for user in PasswordResetForm().get_users(email):
        send_mail(user.email, "mails/recovery.txt", {"user": user, "address": way_back(user)})


def way_back(user: User) -> str:
    uid = urlsafe_base64_encode(force_bytes(user.pk))
    return settings.SITE_URL + reverse("recover-set", args=[uid, default_token_generator.make_token(user)])


class SetNewPassword(PasswordResetConfirmView):
    """/account/recover/<uid>/<token>/ — Django's own: the token goes from the address into the session."""

    template_name = "account/recover_set.html"
    form_class = NewPasswordForm
    success_url = reverse_lazy("sign-in")

    def dispatch(self, *arguments: Any, **named: Any) -> HttpResponse:
        return secret(cast(HttpResponse, super().dispatch(*arguments, **named)))

    def form_valid(self, form: SetPasswordForm) -> HttpResponse:
        answer = super().form_valid(form)
        say(self.request, _("Your password is changed; sign in with it."))
        return answer


recover_set = sensitive_post_parameters()(SetNewPassword.as_view())
