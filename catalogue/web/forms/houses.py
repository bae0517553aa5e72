"""The form of a house: its letterhead, its logo, how its papers look, whose papers bear it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from catalogue.exchange.pictures import PictureError, ProbedPicture, probe_picture
from catalogue.models import Composer, House
from catalogue.web.forms.look import DRESSING, DressingForm
from catalogue.web.uploads import is_too_large, most_taken

LETTERHEAD = ("name", "address", "telephone", "email", "website", "registration")
LOGO = ("logo", "logo_alternative", "without_logo")


class HouseForm(DressingForm):
    """``composers`` are those who may be put under this roof; ``request`` knows whether a file was too large."""

    website = forms.URLField(label=_("Website"), required=False, max_length=500, assume_scheme="https")
    under_it = forms.MultipleChoiceField(
        label=_("Whose papers bear it"),
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": _("Choose a composer at least.")},
    )
    logo = forms.FileField(
        label=_("Logo"),
        required=False,
        help_text=_("A PNG, JPEG or WebP file; it stands at the right above the first line."),
        widget=forms.FileInput(attrs={"accept": ".png,.jpg,.jpeg,.webp"}),
    )
    without_logo = forms.BooleanField(label=_("Take the logo off"), required=False)

    class Meta:
        model = House
        fields = [*LETTERHEAD, "logo_alternative", *DRESSING]
        labels = {
            "name": _("Name"),
            "address": _("Address"),
            "telephone": _("Telephone"),
            "email": _("E-mail"),
            "registration": _("Registration"),
            "logo_alternative": _("What the logo shows"),
        }
        help_texts = {
            "name": _("As letters are headed."),
            "registration": _("Such as the register and the number of the house, and its tax number."),
            "logo_alternative": _("In words, for those who cannot see it; left empty, the name is used."),
        }
        widgets = {"address": forms.Textarea(attrs={"rows": 3})}
        error_messages = {"name": {"required": _("A house needs a name.")}}

    def __init__(self, *args: Any, composers: Sequence[Composer], request: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.composers, self.request = composers, request
        under: Any = self.fields["under_it"]
        under.choices = [(one.slug, one.name) for one in composers]
        self.initial["under_it"] = [one.slug for one in composers if one.house_id and one.house_id == self.instance.pk]
        if not self.instance.logo_sha256:
            del self.fields["without_logo"]

    def clean_logo(self) -> ProbedPicture | None:
        if is_too_large(self.request, "logo"):
            reason = _now("The picture is larger than %(most)s MB; make it smaller first.")
            raise forms.ValidationError(reason % {"most": most_taken(self.request)})
        sent = self.cleaned_data["logo"]
        try:
            return probe_picture(sent.read()) if sent else None
        except PictureError as mistake:
            raise forms.ValidationError(mistake.reason) from mistake

    def chosen(self) -> list[Composer]:
        """Return the composers whose papers are to bear the letterhead."""
        return [one for one in self.composers if one.slug in self.cleaned_data["under_it"]]

    def groups(self) -> list[tuple[str, list[Any]]]:
        """The fields under their heads, in the order in which a letter shows them."""
        heads = (
            (_now("Letterhead"), LETTERHEAD),
            (_now("Logo"), LOGO),
            (_now("How documents look"), DRESSING),
            (_now("Composers"), ("under_it",)),
        )
        return [(head, [self[name] for name in names if name in self.fields]) for head, names in heads]
