"""The forms that bring tables in: which file, and how it is to be read."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.exchange.batches import OWN, Told
from catalogue.exchange.columns import LEFT_OUT, Kind, column_names
from catalogue.web.uploads import is_too_large

FOUND = ("", _("As it was found"))
ENCODINGS = (
    FOUND,
    ("utf-8", "UTF-8"),
    ("cp1252", _("Western European (Windows)")),
    ("mac-roman", _("Western European (Mac)")),
    ("cp1250", _("Central European (Windows)")),
    ("cp1251", _("Cyrillic (Windows)")),
    ("cp1253", _("Greek (Windows)")),
    ("utf-16", "UTF-16"),
)
DELIMITERS = (FOUND, (",", _("commas")), (";", _("semicolons")), ("\t", _("tabs")), ("|", _("bars")))
KINDS = ((Kind.WORKS.value, _("works")), (Kind.PERFORMANCES.value, _("performances")))
DATES = (("en-GB", _("day first: 28/3/2026")), ("en-US", _("month first: 3/28/2026")))
BARE = (("minutes", _("minutes")), ("seconds", _("seconds")), ("", _("neither; keep them as they are written")))
OTHERS = (
    ("", _("a mistake; nothing is stored")),
    (OWN, _("theirs: each goes to the catalogue that you keep of its composer, a new one where there is none")),
)
TOO_LARGE = _("This file is larger than 20 MB.")


class UploadForm(forms.Form):
    file = forms.FileField(
        label=_("Spreadsheet"),
        help_text=_("CSV, XLSX or ODS, up to 20 MB and 20,000 rows. One of its first rows names the columns."),
        max_length=255,
        allow_empty_file=True,
        widget=forms.FileInput(attrs={"accept": ".csv,.tsv,.txt,.xlsx,.ods"}),
    )
    kind = forms.ChoiceField(
        label=_("What are the rows?"), choices=(("", _("Told from its headers")), *KINDS), required=False
    )

    def __init__(self, *args: Any, request: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        if is_too_large(request, "file"):
            self.fields["file"].error_messages["required"] = TOO_LARGE


class ReadingForm(forms.Form):
    """How a table is to be read; fields that were not sent leave what was said before."""

    kind = forms.ChoiceField(label=_("The rows are"), choices=KINDS, required=False)
    encoding = forms.ChoiceField(label=_("Letters"), choices=ENCODINGS, required=False)
    delimiter = forms.ChoiceField(label=_("Between the cells"), choices=DELIMITERS, required=False)
    dates = forms.ChoiceField(label=_("Dates in figures"), choices=DATES, required=False)
    bare = forms.ChoiceField(
        label=_("Numbers without a unit mean"), choices=BARE, required=False, widget=forms.RadioSelect
    )

    others = forms.ChoiceField(
        label=_("Rows of other composers are"), choices=OTHERS, required=False, widget=forms.RadioSelect
    )

    def __init__(self, *args: Any, report: dict[str, Any], told: Told, **options: Any) -> None:
        self.told, self.report = told, report
        super().__init__(*args, **options)
        self.initial = {
            "kind": report["kind"],
            "encoding": told.encoding,
            "delimiter": told.delimiter,
            "dates": "en-US" if told.dates == "en-US" else "en-GB",
            "bare": told.bare,
            "others": told.others,
        }
        choices = [
            ("", _("a note")),
            *((name, name.replace("_", " ")) for name in column_names(Kind(report["kind"]))),
            (LEFT_OUT, _("left out")),
        ]
        for column in report["columns"]:
            field = forms.ChoiceField(label=column["written"] or column["letter"], choices=choices, required=False)
            self.fields[name_of(column["place"])] = field
            self.initial[name_of(column["place"])] = column["column"]

    def rows(self) -> list[tuple[dict[str, Any], Any]]:
        """Return each column of the table with the field that says what it is."""
        return [(column, self[name_of(column["place"])]) for column in self.report["columns"]]

    def newly_told(self) -> Told:
        """Return what is said now: what was sent, and what was said before of the rest."""
        sent = {name: value for name, value in self.cleaned_data.items() if name in self.data}
        columns = {
            column["place"]: sent[name_of(column["place"])]
            for column in self.report["columns"]
            if name_of(column["place"]) in sent
        }
        # Columns of one kind of table are none of the other's.
        same_kind = sent.get("kind", self.report["kind"]) == self.report["kind"]
        chosen = {place: said for place, said in columns.items() if said != self.initial[name_of(place)]}
        return Told(
            kind=sent.get("kind", self.told.kind),
            encoding=sent.get("encoding", self.told.encoding),
            delimiter=sent.get("delimiter", self.told.delimiter),
            dates=sent.get("dates", self.told.dates),
            bare=sent.get("bare", self.told.bare),
            others=sent.get("others", self.told.others),
            columns={**self.told.columns, **chosen} if same_kind else {},
        )


def name_of(place: int) -> str:
    return f"column-{place}"
