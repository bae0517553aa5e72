"""What a link to files is asked: for whom, which files, for how long."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from django import forms
from django.template.defaultfilters import filesizeformat
from django.utils.translation import gettext_lazy as _

from catalogue.models import Composer, StoredFile, Work
from catalogue.models.conditions import choices_of
from catalogue.models.fields import LINE, refuse_unprintable
from catalogue.terms import Permission
from catalogue.terms.hires import LinkPurpose

DAYS = ((14, _("two weeks")), (30, _("30 days")), (90, _("three months")), (365, _("a year")))
USUAL_DAYS = 30
MOST_OFFERED = 200


class LinkForm(forms.Form):
    """The files are those of the work, where one is named, else the latest of the catalogue; of these ``kinds``."""

    recipient = forms.CharField(
        label=_("For whom"),
        max_length=LINE,
        validators=[refuse_unprintable],
        help_text=_("One person or house; the page that opens names it."),
        widget=forms.TextInput(attrs={"dir": "auto"}),
    )
    purpose = forms.ChoiceField(label=_("What for"), choices=choices_of(LinkPurpose))
    chosen = forms.ModelMultipleChoiceField(
        StoredFile.objects.none(),
        label=_("Files"),
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": _("Choose at least one file.")},
    )
    days = forms.TypedChoiceField(label=_("Open for"), choices=DAYS, coerce=int, initial=USUAL_DAYS)
    message = forms.CharField(
        label=_("A word with it"),
        required=False,
        max_length=5000,
        validators=[refuse_unprintable],
        widget=forms.Textarea(attrs={"rows": 3, "dir": "auto"}),
    )

    def __init__(
        self, *args: Any, composer: Composer, work: Work | None, kinds: Collection[str], **options: Any
    ) -> None:
        super().__init__(*args, **options)
        ours = StoredFile.objects.filter(composer=composer, kind__in=kinds)
        offered = (ours.filter(work=work) if work else ours).select_related("recording").order_by("kind", "-pk")
        field: Any = self.fields["chosen"]
        field.queryset = offered
        field.choices = [(one.pk, label_of(one)) for one in offered[:MOST_OFFERED]]

    @property
    def has_files(self) -> bool:
        return bool(self.fields["chosen"].choices)  # type: ignore[attr-defined]


def label_of(file: StoredFile) -> str:
    """The name of a file, what it is, how large; of a recording that may not be shared, that."""
    told = [str(file), file.get_kind_display(), filesizeformat(file.byte_count)]
    if file.recording is not None and file.recording.permission in (Permission.NOT_ASKED, Permission.REFUSED):
        told.append(str(_("sharing: %s") % file.recording.get_permission_display().lower()))
    return ", ".join(told)
