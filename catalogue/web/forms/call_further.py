"""The rarer conditions of a call: what of the works together, where entrants come from, what a portal takes."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from catalogue.models.fields import LINE, LONG_LINE, refuse_unprintable
from catalogue.rules.calls.choosing import RECKONED
from catalogue.rules.calls.packs import MEGABYTE, PLACES
from catalogue.rules.calls.portals import FORMATS
from catalogue.rules.calls.sung_texts import language_name, language_of
from catalogue.rules.calls.terms import Age, Call, Novelty, Portal, Residence, SetRule, TextRights
from catalogue.rules.calls.zones import state_of_word
from catalogue.rules.states import state_name
from catalogue.web.forms.call_fields import length_field, number_field, one_of, yes_or_no

KINDS = (*RECKONED, "contrasting", "notated")
RULE = re.compile(rf"(?:(?P<least>\d{{1,2}})\s+)?(?P<kind>{'|'.join(KINDS)})(?:,?\s*(?P<players>\d{{1,3}})\s*players)?")
MOST_WORDS, MOST_PAGES, MOST_MEGABYTES = 10_000, 500, 10_000
NUMBERS = ("statement_least", "statement_words", "life_words", "sample_pages", "cv_pages", "excerpt", "referees")


def states_field(label: Any) -> forms.CharField:
    return forms.CharField(label=label, required=False, max_length=LONG_LINE, validators=[refuse_unprintable])


def size_field(label: Any) -> forms.DecimalField:
    box = forms.NumberInput(attrs={"class": "short", "step": "any"})
    return forms.DecimalField(label=label, required=False, min_value=0, max_value=MOST_MEGABYTES, widget=box)


class FurtherFields(forms.Form):
    """Fields that stand beside those of every call; ``further`` gives the terms that they say."""

    channels_exact = number_field(_("Channels exactly"))
    set_rules = forms.CharField(
        label=_("Works together"),
        required=False,
        max_length=LONG_LINE,
        help_text=_("One a line, such as: 1 large ensemble, 10 players. Kinds: %s.") % ", ".join(KINDS),
        widget=forms.Textarea(attrs={"rows": 3, "spellcheck": "false"}),
    )
    text_languages = forms.CharField(
        label=_("Words in"),
        required=False,
        max_length=LINE,
        validators=[refuse_unprintable],
        help_text=_("The languages of what is sung, such as: Latin, English."),
    )
    text_rights = one_of(TextRights, _("Words must be"))
    novelty_open_rehearsals = yes_or_no(_("Open rehearsals count"))
    novelty_students = yes_or_no(_("Performances by students and amateurs count"))
    novelty_country = states_field(_("Only performances in"))
    age_least = number_field(_("Lowest age"), 150)
    national = states_field(_("Nationals of"))
    resident = states_field(_("Living in"))
    born_in = states_field(_("Or born in"))
    pairs = yes_or_no(_("A score and a recording of every work"))
    statement_least = number_field(_("Words of the statement at least"), MOST_WORDS)
    statement_words = number_field(_("Words of the statement at most"), MOST_WORDS)
    life_words = number_field(_("Words of the biography at most"), MOST_WORDS)
    sample_pages = number_field(_("Pages of the writing sample at most"), MOST_PAGES)
    cv_pages = number_field(_("Pages of the CV at most"), MOST_PAGES)
    excerpt = length_field(_("A recording lasts at most"))
    referees = number_field(_("Referees"), 20)
    file_size = size_field(_("Largest file (MB)"))
    pack_size = size_field(_("All files together, at most (MB)"))
    formats = forms.CharField(
        label=_("Files of the kinds"),
        required=False,
        max_length=LINE,
        validators=[refuse_unprintable],
        help_text=_("Such as: pdf, mp3."),
    )
    file_names = forms.CharField(
        label=_("Files are called"),
        required=False,
        max_length=LINE,
        validators=[refuse_unprintable],
        help_text=_("Such as {surname}_{title}_{piece}; also {number}, {name}, {motto}."),
    )

    def clean_set_rules(self) -> tuple[SetRule, ...]:
        found = []
        for line in filter(None, map(str.strip, str(self.cleaned_data["set_rules"]).splitlines())):
            match = RULE.fullmatch(line)
            if match is None:
                raise ValidationError(
                    _now("“%(line)s” is no kind of works; write one such as: 1 voice.") % {"line": line}
                )
            players = int(match["players"]) if match["players"] else None
            found.append(SetRule(match["kind"], int(match["least"] or 1), players, line))
        return tuple(found)

    def clean_text_languages(self) -> tuple[str, ...]:
        typed = [one.strip() for one in re.split(r"[,;]", str(self.cleaned_data["text_languages"])) if one.strip()]
        codes = [language_of(one) for one in typed]
        if "" in codes:
            raise ValidationError(
                _now("“%(language)s” is no language that is known; write its code, such as en.")
                % {"language": typed[codes.index("")]}
            )
        return tuple(dict.fromkeys(codes))

    def clean_formats(self) -> tuple[str, ...]:
        typed = [one.strip(" .").casefold() for one in re.split(r"[,;\s]+", str(self.cleaned_data["formats"]))]
        unknown = [one for one in typed if one and one not in FORMATS]
        if unknown:
            raise ValidationError(
                _now("“%(kind)s” is no kind of file that is known; known are: %(kinds)s.")
                % {"kind": unknown[0], "kinds": ", ".join(FORMATS)}
            )
        return tuple(dict.fromkeys(one for one in typed if one))

    def clean_file_names(self) -> str:
        pattern = str(self.cleaned_data["file_names"]).strip()
        unknown = [name for name in re.findall(r"\{(.*?)\}", pattern) if name not in PLACES]
        if unknown:
            raise ValidationError(_now("Nothing is known of “{%(name)s}”.") % {"name": unknown[0]})
        return pattern

    def clean_novelty_country(self) -> str:
        return next(iter(self.states("novelty_country")), "")

    def clean_national(self) -> tuple[str, ...]:
        return self.states("national")

    def clean_resident(self) -> tuple[str, ...]:
        return self.states("resident")

    def clean_born_in(self) -> tuple[str, ...]:
        return self.states("born_in")

    def states(self, name: str) -> tuple[str, ...]:
        typed = [one.strip() for one in str(self.cleaned_data[name]).split(",") if one.strip()]
        codes = [one if re.fullmatch("[A-Z]{2}", one) else state_of_word(one) for one in typed]
        if "" in codes:
            raise ValidationError(_now("“%(state)s” is no state that is known.") % {"state": typed[codes.index("")]})
        return tuple(codes)

    # ---- what was typed

    def set_terms(self, base: tuple[SetRule, ...]) -> tuple[SetRule, ...]:
        """Return the rules on the works together, each in the words of the call where it is one of those."""
        words = {replace(rule, text=""): rule for rule in base}
        typed: tuple[SetRule, ...] = self.cleaned_data["set_rules"]
        return tuple(words.get(replace(rule, text=""), rule) for rule in typed)

    def portal_terms(self) -> Portal:
        cleaned = self.cleaned_data
        return Portal(
            **{name: cleaned[name] for name in (*NUMBERS, "pairs", "file_names", "formats")},
            file_bytes=in_bytes(cleaned["file_size"]),
            pack_bytes=in_bytes(cleaned["pack_size"]),
        )

    def residence_terms(self, base: Residence | None) -> Residence | None:
        cleaned = self.cleaned_data
        states = {"national": cleaned["national"], "resident": cleaned["resident"], "born": cleaned["born_in"]}
        if not any(states.values()):
            return None
        kept = base or Residence(text=", ".join(state_name(code) for code in sum(states.values(), ())))
        return replace(kept, **states)

    def novelty_terms(self, base: Novelty) -> Novelty:
        cleaned = self.cleaned_data
        names = ("open_rehearsals", "students", "country")
        return replace(base, **{name: cleaned[f"novelty_{name}"] for name in names})


def in_bytes(megabytes: Any) -> int | None:
    return int(megabytes * MEGABYTE) if megabytes else None


def in_megabytes(size: int | None) -> str:
    """
    >>> in_megabytes(2_500_000), in_megabytes(20_000_000), in_megabytes(None)
    ('2.5', '20', '')
    """
    return f"{size / MEGABYTE:.3f}".rstrip("0").rstrip(".") if size else ""


def further_initial(call: Call) -> dict[str, Any]:
    """Return what these fields show of a call."""
    age, home, novelty, portal = call.age or Age(), call.residence or Residence(), call.novelty, call.portal
    return {
        "channels_exact": call.channels_exact,
        "set_rules": "\n".join(written(rule) for rule in dict.fromkeys(call.set_rules)),
        **{f"novelty_{name}": getattr(novelty, name) for name in ("open_rehearsals", "students")},
        "novelty_country": told_states((novelty.country,) if novelty.country else ()),
        "age_least": age.least,
        "national": told_states(home.national),
        "resident": told_states(home.resident),
        "born_in": told_states(home.born),
        **{name: getattr(portal, name) for name in (*NUMBERS, "pairs", "file_names")},
        "formats": ", ".join(portal.formats),
        "text_languages": ", ".join(map(language_name, call.text_languages)),
        "file_size": in_megabytes(portal.file_bytes),
        "pack_size": in_megabytes(portal.pack_bytes),
    }


def written(rule: SetRule) -> str:
    players = f", {rule.players} players" if rule.players else ""
    return f"{rule.least} {rule.kind}{players}"


def told_states(codes: tuple[str, ...]) -> str:
    """Return states by their names where those are read back, else by their codes."""
    return ", ".join(name if state_of_word(name := state_name(code)) == code else code for code in codes)
