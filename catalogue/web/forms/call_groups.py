"""In which groups the conditions of a call stand on its form, and by which name of the reading its words are found."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from catalogue.web.forms.call_further import NUMBERS

GROUPS: tuple[tuple[str, Promise, tuple[str, ...]], ...] = (
    (
        "call",
        _("The call"),
        (
            "title",
            "organiser",
            "kind",
            "website",
            "deadline_day",
            "deadline_time",
            "deadline_zone",
            "results_on",
            "fee",
        ),
    ),
    (
        "players",
        _("Players"),
        (
            "forces",
            "forces_rule",
            "players_min",
            "players_max",
            "extra_players",
            "strings_compulsory",
            "usual_doublings",
            "timpani_among_percussion",
            "soloists_excluded",
            "voices_excluded",
            "electronics",
            "channels_max",
            "channels_exact",
            "text_languages",
            "text_rights",
        ),
    ),
    (
        "length",
        _("Length and number"),
        (
            "duration_min",
            "duration_max",
            "duration_strict",
            "duration_tolerance",
            "works_min",
            "works_max",
            "total_min",
            "total_max",
            "set_rules",
        ),
    ),
    (
        "date",
        _("Date and novelty"),
        (
            "composed_from",
            "composed_until",
            "composed_basis",
            "versions",
            "unperformed",
            "novelty_by",
            "novelty_closed",
            "novelty_planned",
            "novelty_open_rehearsals",
            "novelty_students",
            "novelty_country",
            "unpublished",
            "unrecorded",
        ),
    ),
    (
        "composer",
        _("The composer"),
        ("age_limit", "age_least", "age_on", "born_from", "national", "resident", "born_in"),
    ),
    (
        "sending",
        _("What to send"),
        ("anonymous", "exclusive", "recording", "recording_live", "note_words", "documents", "notes"),
    ),
    (
        "portal",
        _("What the portal takes"),
        (
            "pairs",
            "statement_least",
            "statement_words",
            "life_words",
            "sample_pages",
            "cv_pages",
            "excerpt",
            "referees",
            "formats",
            "file_size",
            "pack_size",
            "file_names",
        ),
    ),
)
SOURCES = {
    "deadline_time": "deadline",
    "forces_rule": "",
    "players_min": "",
    "players_max": "",
    "extra_players": "",
    "age_limit": "age",
    "born_from": "",
    "novelty_by": "novelty",
    "composed_basis": "",
    "recording_live": "recording_text",
    "novelty_open_rehearsals": "",
    "novelty_students": "",
    "novelty_country": "",
    "age_least": "",
    **dict.fromkeys(("national", "resident", "born_in"), "residence"),
    **{name: f"portal_{name}" for name in ("pairs", "file_names", "formats", *NUMBERS)},
    "file_size": "portal_file_bytes",
    "pack_size": "portal_pack_bytes",
}
