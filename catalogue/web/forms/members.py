"""The forms that let somebody into a catalogue, and that say what a member may do."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms
from django.contrib.auth.models import User
from django.contrib.auth.password_validation import password_validators_help_texts, validate_password
from django.utils.translation import gettext_lazy as _

from catalogue.models import Composer
from catalogue.terms import Role
from catalogue.web.forms.composer_field import ComposersField

ROLES = [
    (Role.EDITOR.value, _("edits works and performances")),
    (Role.VIEWER.value, _("reads")),
    (Role.LIBRARIAN.value, _("librarian: the material alone")),
    (Role.OWNER.value, _("owner: edits, lets others in")),
]


class MemberForm(forms.Form):
    """Somebody to be let in."""

    user_name = forms.CharField(
        label=_("Name to sign in with"),
        help_text=_("Of somebody who signs in here already, or a new one: a short name or an e-mail address."),
        max_length=150,
        validators=[*User._meta.get_field("username").validators],
        widget=forms.TextInput(attrs={"autocomplete": "off", "autocapitalize": "none"}),
    )
    email = forms.EmailField(
        label=_("E-mail address"),
        help_text=_("Of somebody new: the way in is sent there. Left empty, it is shown to you to hand over."),
        required=False,
        widget=forms.EmailInput(attrs={"autocomplete": "off"}),
    )
    role = forms.ChoiceField(label=_("What they may do"), choices=ROLES)

    def __init__(self, *args: Any, sends_mail: bool, **options: Any) -> None:
        super().__init__(*args, **options)
        if not sends_mail:
            del self.fields["email"]

    def added(self) -> tuple[str, Role, str]:
        """Return the name to sign in with, the role, and the address to send the way in to, if any."""
        told = self.cleaned_data
        return told["user_name"], Role(told["role"]), told.get("email", "")


class HouseMemberForm(MemberForm):
    """Somebody to be let into several catalogues at once."""

    def __init__(self, *args: Any, composers: Sequence[Composer], **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["composers"] = ComposersField(label=_("Into which catalogues"), composers=composers)


class RoleForm(forms.Form):
    """What one member may do; ``prefix`` tells the rows of a list apart."""

    role = forms.ChoiceField(label=_("What they may do"), choices=ROLES)


class JoinForm(forms.Form):
    """The password that somebody new chooses."""

    password = forms.CharField(
        label=_("Password"), strip=False, widget=forms.PasswordInput(attrs={"autocomplete": "new-password"})
    )

    def __init__(self, *args: Any, user: User, **options: Any) -> None:
        super().__init__(*args, **options)
        self.user = user
        self.fields["password"].help_text = " ".join(password_validators_help_texts())

    def clean_password(self) -> str:
        password: str = self.cleaned_data["password"]
        validate_password(password, self.user)
        return password
