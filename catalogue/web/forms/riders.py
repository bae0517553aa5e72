"""The forms of a rider: to whom it goes, and what is answered to each of its items."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django import forms
from django.forms.boundfield import BoundField
from django.utils.translation import gettext_lazy as _

from catalogue.actions.riders import Said
from catalogue.models.fields import LINE, LONG_LINE, refuse_unprintable
from catalogue.terms import Answer
from catalogue.web.forms.document_base import language_names
from catalogue.web.sent_riders import Answered, Sending

ANSWERS = (
    (Answer.YES.value, _("Yes")),
    (Answer.NOT_QUITE.value, _("Not quite")),
    (Answer.NO.value, _("No")),
    (Answer.QUESTION.value, _("A question")),
)


class SendForm(forms.Form):
    """To whom a rider goes, and in which language."""

    to = forms.CharField(
        label=_("To whom"),
        max_length=LINE,
        validators=[refuse_unprintable],
        help_text=_("For yourself: who gets the address, such as the stage manager of the hall."),
        widget=forms.TextInput(attrs={"dir": "auto"}),
    )
    language = forms.ChoiceField(label=_("Language"), choices=language_names)


class AnswersForm(forms.Form):
    """An answer and a remark for each item that is asked, and who answers."""

    rest = forms.BooleanField(label=_("Yes to everything that is not answered above"), required=False)
    by = forms.CharField(
        label=_("Your name"),
        max_length=LINE,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"autocomplete": "name", "dir": "auto"}),
    )
    message = forms.CharField(
        label=_("Anything else"),
        required=False,
        max_length=5000,
        validators=[refuse_unprintable],
        widget=forms.Textarea(attrs={"rows": 4, "dir": "auto"}),
    )

    def __init__(self, *args: Any, sending: Sending, **options: Any) -> None:
        super().__init__(*args, **options)
        self.asked = sending.asked
        self.initial.update({"by": sending.record.answered_by, "message": sending.record.message})
        for item in self.asked:
            self.fields[f"answer-{item.key}"] = forms.ChoiceField(
                label=item.title, choices=ANSWERS, required=False, widget=forms.RadioSelect, initial=item.answer
            )
            self.fields[f"remark-{item.key}"] = forms.CharField(
                label=_("What instead, or a remark"),
                required=False,
                max_length=LONG_LINE,
                validators=[refuse_unprintable],
                initial=item.remark,
                widget=forms.Textarea(attrs={"rows": 2, "dir": "auto"}),
            )

    def items(self) -> Iterator[tuple[Answered, BoundField, BoundField]]:
        """Give each item with the fields of its answer and its remark."""
        for item in self.asked:
            yield item, self[f"answer-{item.key}"], self[f"remark-{item.key}"]

    def answers(self) -> dict[str, Said]:
        """Return what was answered; a remark alone is a question, and nothing is a yes where that was ticked."""
        found = {}
        for item in self.asked:
            answer, remark = (self.cleaned_data[f"{part}-{item.key}"] for part in ("answer", "remark"))
            if not answer and not remark and self.cleaned_data["rest"]:
                found[item.key] = Said(Answer.YES, "")
            elif answer or remark:
                found[item.key] = Said(Answer(answer or Answer.QUESTION), " ".join(remark.split()))
        return found
