"""The forms that sign somebody in, and that found a catalogue on the first visit."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib.auth.forms import AuthenticationForm, PasswordChangeForm, SetPasswordForm
from django.contrib.auth.models import User
from django.contrib.auth.password_validation import password_validators_help_texts, validate_password
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.actions.entry import Founder
from catalogue.models.fields import refuse_unprintable

WRONG = _("This name and password do not belong together. Both tell capitals from small letters.")


class SignInForm(AuthenticationForm):
    """The same sentence for a wrong name and for a wrong password; after one the eye goes to the sentence."""

    error_messages = {"invalid_login": WRONG, "inactive": WRONG}

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["username"].label = _("Name")
        self.fields["username"].widget.attrs["autofocus"] = not self.is_bound


NAME_TAKEN = _("Somebody signs in with this name already.")


class FounderForm(forms.Form):
    """Who the composer is, and how the owner signs in from now on."""

    composer_name = forms.CharField(
        label=_("The composer’s name"),
        help_text=_("As it stands on a score. Everything else about the composer can be added later."),
        max_length=200,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"class": "title", "autocomplete": "name"}),
    )
    user_name = forms.CharField(
        label=_("Name to sign in with"),
        help_text=_("A short name or an e-mail address."),
        max_length=150,
        validators=[*User._meta.get_field("username").validators],
        widget=forms.TextInput(attrs={"autocomplete": "username", "autocapitalize": "none"}),
    )
    password = forms.CharField(
        label=_("Password"), strip=False, widget=forms.PasswordInput(attrs={"autocomplete": "new-password"})
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["password"].help_text = " ".join(password_validators_help_texts())

    def clean_user_name(self) -> str:
        name: str = self.cleaned_data["user_name"]
        if User.objects.filter(username__iexact=name).exists():
            raise ValidationError(NAME_TAKEN)
        return name

    def clean_password(self) -> str:
        password: str = self.cleaned_data["password"]
        validate_password(password, User(username=self.cleaned_data.get("user_name", "")))
        return password

    def founder(self) -> Founder:
        return Founder(**self.cleaned_data)


class ChangePasswordForm(PasswordChangeForm):
    """The old password, then the new one twice; who came in without one, as visitors of the demo do, has no old one."""

    error_messages = {
        **PasswordChangeForm.error_messages,
        "password_incorrect": _("This is not your current password."),
        "password_mismatch": _("The two are not the same."),
    }

    def __init__(self, user: User, *args: Any, **options: Any) -> None:
        super().__init__(user, *args, **options)
        self.fields["old_password"].label = _("Your current password")
        self.fields["new_password1"].label = _("New password")
        self.fields["new_password1"].help_text = " ".join(password_validators_help_texts())
        self.fields["new_password2"].label = _("The new one again")
        self.fields["new_password2"].help_text = ""
        if not user.has_usable_password():
            del self.fields["old_password"]


class RecoverForm(forms.Form):
    """Where the way back is sent."""

    email = forms.EmailField(label=_("E-mail address"), widget=forms.EmailInput(attrs={"autocomplete": "email"}))


class NewPasswordForm(SetPasswordForm):
    """The new password twice, of somebody who has forgotten the old one."""

    error_messages = {"password_mismatch": _("The two are not the same.")}

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["new_password1"].label = _("New password")
        self.fields["new_password1"].help_text = " ".join(password_validators_help_texts())
        self.fields["new_password2"].label = _("The new one again")
        self.fields["new_password2"].help_text = ""


class PasswordAskedForm(forms.Form):
    """The password again, before anything of the way in is changed; visitors of the demo have none."""

    password = forms.CharField(
        label=_("Your password"), strip=False, widget=forms.PasswordInput(attrs={"autocomplete": "current-password"})
    )

    def __init__(self, user: User, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.user = user
        if not user.has_usable_password():
            del self.fields["password"]

    def clean_password(self) -> str:
        password: str = self.cleaned_data["password"]
        if not self.user.check_password(password):
            raise ValidationError(_("This is not your password."))
        return password


class MailAddressForm(PasswordAskedForm):
    """One's own e-mail address, or none."""

    email = forms.EmailField(
        label=_("E-mail address"), required=False, widget=forms.EmailInput(attrs={"autocomplete": "email"})
    )
    field_order = ["email", "password"]


class CodeForm(forms.Form):
    """The code of the second step."""

    code = forms.CharField(
        label=_("Code"),
        help_text=_("The six digits that your telephone shows now."),
        max_length=30,
        widget=forms.TextInput(attrs={"autocomplete": "one-time-code", "autocapitalize": "none", "class": "code"}),
    )
