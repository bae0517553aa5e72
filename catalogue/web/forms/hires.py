"""The form of a hire, and the one on which its list is counted: as it is packed, as it arrives, as it comes back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any, ClassVar, cast

from django import forms
from django.forms.boundfield import BoundField
from django.utils.translation import gettext_lazy as _

from catalogue.actions.hires import Counted, Stage, save_hire
from catalogue.models import Hire, HireItem, Performance
from catalogue.models.conditions import choices_of
from catalogue.models.fields import LINE, LONG_LINE, refuse_unprintable
from catalogue.terms import PerformerRole
from catalogue.terms.hires import PartAction, PartCondition
from catalogue.timing import PartialDate
from catalogue.web.forms.fields import DayField, NumberField
from catalogue.web.forms.records import MOST_OFFERED, RecordForm
from catalogue.web.records.kinds import Kind
from catalogue.web.records.registry import KINDS
from catalogue.web.wording import date_text, page_language

MOST = 999
MORE = 3  # empty lines for what is no part
SHORT = {"class": "short", "inputmode": "numeric"}
DAYS = {Stage.SENT: ("out_on", _("Sent on")), Stage.BACK: ("back_on", _("Back on"))}


class HireForm(RecordForm):
    """A hire with its performances: those of its work, once that is known."""

    kind: ClassVar[Kind] = KINDS["hires"]
    performances = forms.ModelMultipleChoiceField(
        Performance.objects.none(),
        label=cast(str, kind.fields["performances"].label),
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        if self.instance.pk:
            self.initial["performances"] = list(self.instance.hired_for.values_list("performance", flat=True))
        if self.instance.work_id is None:
            self.fields["performances"].help_text = _("They can be named here once the hire is saved with its work.")

    def begin_for(self, performance: Performance) -> None:
        """Fill in what a performance tells, its ensemble as who has the set, and the terms where there is one only."""
        credits = list(performance.credits.select_related("organisation", "person").order_by("order", "pk"))
        bodies = [one for one in credits if one.role == PerformerRole.ENSEMBLE or one.organisation_id]
        known = self.fields["terms"].queryset[:2]  # type: ignore[attr-defined]
        begun: dict[str, Any] = {
            "performances": [performance.pk],
            "name": next((one.billed_name for one in (*bodies, *credits)), ""),
            "terms": known[0].pk if len(known) == 1 else "",
        }
        self.initial.update({name: value for name, value in begun.items() if not self.initial.get(name)})

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        chosen, work = cleaned.get("performances"), cleaned.get("work")
        others = chosen.exclude(programme__work=work).select_related("venue") if chosen and work else []
        for one in others:
            name = {"name": name_with_day(one)}
            self.add_error("performances", _("“%(name)s” does not have this work on its programme.") % name)
        return cleaned

    def _choices_of(self, name: str, field: Any) -> list[tuple[Any, Any]]:
        if name != "performances":
            return super()._choices_of(name, field)
        if self.instance.work_id is None:
            field.queryset = field.queryset.none()
            return []
        field.queryset = field.queryset.of_work(self.instance.work)
        found = field.queryset.select_related("venue").latest_first()[:MOST_OFFERED]
        return [(one.pk, name_with_day(one)) for one in found]

    def keep(self, now: datetime) -> None:
        chosen = list(self.cleaned_data["performances"])
        save_hire(hire=self.instance, performances=chosen, now=now, with_new=self.new_names)


def name_with_day(performance: Performance) -> str:
    when = performance.date
    day = date_text(when, page_language()) if isinstance(when, PartialDate) else ""
    return ", ".join(part for part in (day, str(performance.venue or performance.city)) if part)


# ---- counting


@dataclass(frozen=True, slots=True)
class CountedRow:
    """A row of the list with the fields in which it is counted; those beside the number only on its return."""

    item: HireItem
    copies: BoundField
    beside: tuple[BoundField, ...]

    @property
    def is_told(self) -> bool:
        """Whether something stands beside the number, or one of the fields was refused: such rows are not folded."""
        return any(field.errors or field.value() not in (None, "") for field in self.beside) or bool(self.copies.errors)


class CountForm(forms.Form):
    """How many copies of each row there are. All are filled in as they should be; what is not there is changed."""

    saves = forms.IntegerField(widget=forms.HiddenInput)

    def __init__(self, *args: Any, hire: Hire, stage: Stage, items: list[HireItem], **options: Any) -> None:
        super().__init__(*args, **options)
        self.hire, self.stage, self.items = hire, stage, items
        self.initial["saves"] = hire.saves
        if stage in DAYS:
            column, label = DAYS[stage]
            self.fields[column] = DayField(label=label, required=True)
            self.initial.setdefault(column, getattr(hire, column))
        if stage is Stage.SENT:
            self.fields["carrier"] = line(_("How it is sent"), LINE)
            self.initial["carrier"] = hire.carrier
            for number in range(MORE):
                self.fields[f"thing-{number}"] = line(_("Also sent"), LINE)
                self.fields[f"number-{number}"] = copies_field(_("How many"))
        if stage is Stage.BACK:
            self.fields["whole"] = forms.BooleanField(
                label=_("All of it is back in good condition, but for what is noted below"), required=False
            )
            self.fields["erasing_hours"] = NumberField(
                label=_("Hours of erasing"), required=False, min_value=0, max_digits=5, decimal_places=2,
                widget=forms.TextInput(attrs={"class": "short", "inputmode": "decimal"}),
            )  # fmt: skip
            self.initial["erasing_hours"] = hire.erasing_hours
        for item in items:
            self.add_row(item)

    def add_row(self, item: HireItem) -> None:
        self.fields[f"copies-{item.pk}"] = copies_field(_("Copies"))
        self.initial[f"copies-{item.pk}"] = usual_count(item, self.stage)
        if self.stage is not Stage.BACK:
            return
        for name, field in beside_fields().items():
            self.fields[f"{name}-{item.pk}"] = field
            self.initial[f"{name}-{item.pk}"] = getattr(item, name)

    def rows(self) -> Iterator[CountedRow]:
        beside = tuple(beside_fields()) if self.stage is Stage.BACK else ()
        for item in self.items:
            yield CountedRow(item, self[f"copies-{item.pk}"], tuple(self[f"{name}-{item.pk}"] for name in beside))

    def things(self) -> list[tuple[BoundField, BoundField]]:
        """The empty lines for what is no part."""
        if self.stage is not Stage.SENT:
            return []
        return [(self[f"thing-{number}"], self[f"number-{number}"]) for number in range(MORE)]

    @property
    def heads(self) -> list[BoundField]:
        """The fields above the list."""
        names = ("out_on", "carrier", "back_on", "erasing_hours")
        return [self[name] for name in names if name in self.fields]

    # ---- what was typed

    def counted(self) -> dict[int, Counted]:
        return {item.pk: self.counted_of(item) for item in self.items}

    def counted_of(self, item: HireItem) -> Counted:
        typed = self.cleaned_data
        copies = typed[f"copies-{item.pk}"]
        if self.stage is not Stage.BACK:
            return Counted(copies)
        condition, action = typed[f"condition-{item.pk}"], typed[f"action-{item.pk}"]
        out = usual_count(item, Stage.SENT) if item.sent is None else item.sent
        if typed["whole"] and copies is None:
            copies = out
        if typed["whole"] and not condition and copies == out:
            condition = PartCondition.GOOD
        return Counted(
            copies,
            PartCondition(condition) if condition else None,
            typed[f"remark-{item.pk}"],
            PartAction(action) if action else None,
            typed[f"charge-{item.pk}"],
        )

    def more(self) -> dict[str, int]:
        typed = self.cleaned_data
        named = ((typed.get(f"thing-{number}", ""), typed.get(f"number-{number}")) for number in range(MORE))
        return {name: 1 if number is None else number for name, number in named if name}

    def columns(self) -> dict[str, Any]:
        """The columns of the hire that are noted with the list."""
        typed = self.cleaned_data
        return {name: typed[name] for name in ("out_on", "carrier", "back_on", "erasing_hours") if name in typed}


def usual_count(item: HireItem, stage: Stage) -> int | None:
    """What was counted before, else what should be there."""
    counted: int | None = getattr(item, stage.value)
    if counted is not None:
        return counted
    return item.expected if stage is Stage.SENT or item.sent is None else item.sent


def line(label: Any, most: int) -> forms.CharField:
    return forms.CharField(
        label=label,
        required=False,
        max_length=most,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"dir": "auto"}),
    )


def copies_field(label: Any) -> forms.IntegerField:
    return forms.IntegerField(
        label=label, required=False, min_value=0, max_value=MOST, widget=forms.TextInput(attrs=SHORT)
    )


def beside_fields() -> dict[str, forms.Field]:
    """The fields beside a number on its return, by the columns that they are kept in."""
    return {
        "condition": forms.ChoiceField(
            label=_("Condition"), required=False, choices=[("", "—"), *choices_of(PartCondition)]
        ),
        "action": forms.ChoiceField(label=_("To do"), required=False, choices=[("", "—"), *choices_of(PartAction)]),
        "charge": NumberField(
            label=_("Charge"), required=False, min_value=0, max_digits=9, decimal_places=2,
            widget=forms.TextInput(attrs={"class": "short", "inputmode": "decimal"}),
        ),
        "remark": line(_("Remark"), LONG_LINE),
    }  # fmt: skip
