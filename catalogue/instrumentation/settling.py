"""Settles what the drafts of a text mean together: names that share a spelling, seats, soloists, whole bodies."""

from __future__ import annotations

from itertools import pairwise

from catalogue.instrumentation.channels import introduces_list
from catalogue.instrumentation.drafts import Draft, Forces, Told
from catalogue.instrumentation.families import MAIN, WINDS
from catalogue.instrumentation.senses import Surroundings
from catalogue.instrumentation.strings import figures_in
from catalogue.instrumentation.vocabulary import family_of, instrument, key_of

STRINGS = ("violin-1", "violin-2", "violin", "viola", "cello", "double-bass")
SECTIONS = 3
FEWEST_OF_BAND = 5
MOST_OF_SMALL_BODY = 6
OPEN_BODIES = ("orchestra", "wind-band", "brass-band", "big-band")


def choose_names(forces: Forces) -> None:
    """Give every draft whose spelling means several instruments the one that is meant here."""
    drafts = forces.drafts
    voices = any(draft.family == "voice" and clear(draft) for draft in drafts)
    others = frozenset(draft.slug for draft in drafts if draft.slug)
    for at, draft in enumerate(drafts):
        if draft.name is None or draft.figure:
            continue
        before = family_of(drafts[at - 1].slug) if at and drafts[at - 1].slug else ""
        after = family_beyond(drafts, at)
        if not draft.slug or (draft.section and draft.extra):
            around = Surroundings(forces.language, draft.section, before, after, voices, others=others)
            draft.slug = draft.name.surely(draft.section) or headed(draft) or draft.name.means(around)
        if draft.slug == "voice-bass":
            lowest(draft, before, after, drafts, forces)
        elif draft.slug in ("voice-baritone", "voice-tenor", "voice-soprano", "voice-alto"):
            sized(draft, before, drafts, forces)


def headed(draft: Draft) -> str | None:
    """Return the instrument of the family in whose heading the name stands, ``alto`` among strings, if it is one."""
    slugs = draft.name.slugs if draft.name is not None else ()
    fitting = [slug for slug in slugs if family_of(slug) == draft.heading]
    return fitting[0] if len(fitting) == 1 else None


def children_sing(forces: Forces) -> None:
    """Read children's voices that nobody counts, ``voix d'enfants``, as a choir of children."""
    for draft in forces.drafts:
        several = draft.plural or (draft.name is not None and key_of(draft.name.written) == "children")
        if draft.slug in ("voice-child", "voice-treble") and several and draft.count is None and not draft.seats:
            draft.slug, draft.open, draft.role = "choir-children", True, "ensemble"


def kettledrums(forces: Forces) -> None:
    """Read the ``tp`` between the brass figures and the percussion as timpani: the trumpets have their figure."""
    drafts = forces.drafts
    placed = any(draft.section == "trumpet" for draft in drafts)
    for draft, following in pairwise(drafts):
        name = draft.name
        if not placed or name is None or key_of(name.written) != "tp" or draft.count is not None or draft.extra:
            continue
        if following.family == "percussion" and not draft.section:
            draft.slug = "timpani"
            message = f"“{name.written}” after the brass was read as timpani."
            forces.remark("abbreviation", message, draft.start, draft.end, "a trumpet")


OLD_NAMES = {
    "taille": "tenor oboe",
    "traverso": "flute", "traversflote": "flute", "traversfloten": "flute", "clarini": "clarinets",
    "flautotraverso": "flute", "clarone": "bass clarinet", "clarino": "natural trumpet",
}  # fmt: skip


OF_FLUTE = "travers"
"""Names the flute and no other; the word is kept as a note."""
VALVED = ("brass-band", "trumpet", "tuba", "euphonium", "flugelhorn", "tenor-horn", "horn", "baritone-horn")


def remark_on_names(forces: Forces) -> None:
    """Say where an old or a broad name was read as an instrument of today, and where a spelling means two."""
    modern = any(draft.slug in VALVED for draft in forces.drafts)
    for draft in forces.drafts:
        key = key_of(draft.name.written) if draft.name else ""
        if key in OLD_NAMES and draft.name is not None:
            draft.notes.append(draft.name.written)
            if not key.startswith(OF_FLUTE):
                message = f"“{draft.name.written}” was read as {OLD_NAMES[key]}."
                forces.remark("old-name", message, draft.start, draft.end)
        elif draft.slug in ("brass-instrument", "wind-instrument", "string-instrument") and draft.count is not None:
            message = "The instruments of this family are not named."
            forces.remark("family-only", message, draft.start, draft.end)
        elif draft.slug == "cornet" and not modern:
            message = "“cornet” was read as the valved cornet."
            forces.remark("old-name", message, draft.start, draft.end, "the cornett of the Baroque")
        elif key == "viol" and forces.language.startswith("en"):
            other = "viola da gamba" if draft.slug.startswith("violin") else "violin"
            message = f"“{draft.name.written if draft.name else key}” was read as {draft.slug.replace('-', ' ')}."
            forces.remark("abbreviation", message, draft.start, draft.end, other)
        elif key == "tb" and draft.slug in LOW_BRASS and alone_of_low_brass(draft, forces):
            message = f"“{draft.name.written if draft.name else key}” was read as the {draft.slug}."
            forces.remark("abbreviation", message, draft.start, draft.end, f"a {LOW_BRASS[draft.slug]}")
        elif key == "v" and draft.slug == "voice" and forces.language == "de" and draft.role == "ensemble":
            message = f"“{draft.name.written if draft.name else key}” was read as a voice."
            forces.remark("abbreviation", message, draft.start, draft.end, "a violin")
        elif key in ("bsax", "bsx"):
            message = "The letter was read as baritone saxophone."
            forces.remark("abbreviation", message, draft.start, draft.end, "bass saxophone")


LOW_BRASS = {"tuba": "trombone", "trombone": "tuba"}


def alone_of_low_brass(draft: Draft, forces: Forces) -> bool:
    """Whether no other trombone and no other tuba stands in the text."""
    low = ("trombone", "tuba")
    others = (one for one in forces.drafts if one is not draft and one.slug)
    return not any(instrument(one.slug).section in low or one.section in low for one in others)


def clear(draft: Draft) -> bool:
    """Whether a voice is surely sung: a soprano, a tenor, a choir, not the ``bass`` of a jazz trio."""
    return draft.slug not in ("voice-bass", "voice-baritone", "voice-alto")


def family_beyond(drafts: list[Draft], at: int) -> str:
    following = drafts[at + 1] if at + 1 < len(drafts) else None
    if following is None:
        return ""
    if following.slug == "bass-instrument" and following.name is not None and following.name.written == "b":
        return "strings"
    if not following.slug and following.name is not None:
        families = [family_of(slug) for slug in following.name.slugs]
        return "strings" if "strings" in families else next(iter(families), "")
    return family_of(following.slug) if following.slug else ""


def lowest(draft: Draft, before: str, after: str, drafts: list[Draft], forces: Forces) -> None:
    """Tell the singer from the double bass."""
    if draft.role == "soloist" and "voice" in (before, after):
        return
    sung = "voice" in (before, after) or says_voice(draft) or all(one.family in ("voice", "keyboard") for one in drafts)
    written = draft.name.written if draft.name else ""
    if sung or (len(written) == 1 and written.isupper() and "strings" not in (before, after)):
        return
    if before == "brass" and draft.plural and after in ("", "percussion"):
        draft.slug = "tuba"
        forces.remark("bass", f"“{written}” was read as tubas.", draft.start, draft.end, "double basses")
        return
    draft.slug = "double-bass"
    alone = not any(one.slug in STRINGS[:5] for one in drafts)
    if alone or draft.alternatives:
        forces.remark(
            "bass", f"“{written}” was read as double bass.", draft.start, draft.end, "a bass voice or a bass guitar"
        )


def says_voice(draft: Draft) -> bool:
    """Whether the name holds a word for a voice, ``bass voice``."""
    words = draft.name.written.lower().split() if draft.name else []
    return any(word in ("voice", "voices", "voix", "voce", "voz", "solist", "soloist") for word in words)


SAX_VOICES = {
    "voice-soprano": "soprano-saxophone", "voice-alto": "alto-saxophone", "voice-tenor": "tenor-saxophone",
    "voice-baritone": "baritone-saxophone",
}  # fmt: skip


def sized(draft: Draft, before: str, drafts: list[Draft], forces: Forces) -> None:
    """Read ``soprano or alto saxophone`` as sizes of the saxophone and ``baritone`` in a band as the horn."""
    if draft.name is not None and len(draft.name.written.split()) > 1:
        return
    saxes = [slug for slug in draft.alternatives if slug.endswith("-saxophone")]
    if saxes and draft.slug in SAX_VOICES:
        draft.slug = SAX_VOICES[draft.slug]
    elif (
        draft.slug == "voice-baritone"
        and before == "brass"
        and not any(clear(o) and o.family == "voice" for o in drafts)
    ):
        draft.slug = "baritone-horn"


def refuse_nameless(forces: Forces) -> None:
    """Refuse a word or a number whose instrument has not been found: nothing is dropped without a word."""
    for draft in forces.drafts:
        if not draft.slug:
            reason = f"“{forces.written(draft.start, draft.end)}” is not a known instrument."
            raise forces.fail(reason, draft.start, draft.end, ("the name of an instrument",))


def counts_after_names(forces: Forces) -> None:
    """Read the figures after names as numbers of players where they are that throughout."""
    numbered = [draft for draft in forces.drafts if draft.number_after or draft.seats]
    if not counts_stand_after(numbered):
        return
    first, second = forces.drafts[0], forces.drafts[1] if len(forces.drafts) > 1 else None
    if second is not None and not second.separator and first.number_after and not forces.formula:
        message = "The numbers were read with the names before them."
        forces.remark("numbers-after", message, first.start, forces.drafts[-1].end, "with the names after them")
    for draft in numbered:
        if draft.number_after and not draft.seats and not numbers_player(draft):
            draft.counted(draft.number_after[0])
            draft.number_after = ()


def numbers_player(draft: Draft) -> bool:
    """Whether the number after an auxiliary, a slash and its section's instrument is a chair, ``piccolo/flute 3``."""
    main = instrument(draft.slug).section if draft.slug else ""
    return main in draft.slashed and draft.slug != main and draft.number_after[0] > 1 and not draft.plural


def counts_stand_after(numbered: list[Draft]) -> bool:
    """Whether figures after names count players (``Fl 3 · Ob 3``) and not parts (``clarinet 1, clarinet 2``)."""
    plain = [draft for draft in numbered if draft.number_after and not draft.seats]
    slugs = [draft.slug for draft in plain]
    single = [draft for draft in plain if len(draft.number_after) == 1 and draft.count is None]
    repeated = len(set(slugs)) < len(slugs)
    return (
        bool(single)
        and not repeated
        and any(draft.number_after[0] > 1 for draft in single)
        and len(single) == len(plain)
    )


def settle_bodies(forces: Forces) -> None:
    """Drop words for the whole that only introduce what is itemised, and open what is not."""
    drafts = forces.drafts
    whole = [draft for draft in drafts if draft.slug in OPEN_BODIES]
    if whole:
        settle_wholes(whole, forces)
    if any(introduces_list(draft) for draft in drafts):
        drafts[:] = [draft for at, draft in enumerate(drafts) if not is_listed_after(drafts, at, forces)]
    if any(draft.collective == "ensemble" for draft in drafts):
        drafts[:] = [draft for at, draft in enumerate(drafts) if draft.collective != "ensemble" or stays(drafts, at)]
    if any(draft.collective == "players" for draft in drafts):
        played = [one for one in drafts if is_played(one) and one.collective != "players"]
        if len(played) > 1:
            drafts[:] = [one for one in drafts if not only_counts(one, forces)]


def is_listed_after(drafts: list[Draft], at: int, forces: Forces) -> bool:
    """Whether a draft is only the word ``instruments`` before the bracket that lists them."""
    draft, following = drafts[at], drafts[at + 1] if at + 1 < len(drafts) else None
    between = forces.text[draft.end : following.start].strip() if following is not None else ""
    return between in ("(", "[") and introduces_list(draft)


def only_counts(draft: Draft, forces: Forces) -> bool:
    """Whether ``11 players`` only counts those who are named beside it."""
    if draft.collective != "players" or draft.family == "percussion" or draft.brackets or draft.notes:
        return False
    if draft.count is not None and draft.least == draft.most:
        forces.told.append(Told(draft.most, draft.start, draft.end))
    return True


def settle_wholes(whole: list[Draft], forces: Forces) -> None:
    """Settle orchestras and bands: they are gone where they are itemised, and open elsewhere."""
    drafts = forces.drafts
    itemised = [draft for draft in drafts if draft.slug not in OPEN_BODIES and is_played(draft)]
    others = [draft for draft in itemised if draft.collective not in ("players",) and draft.role != "soloist"]
    orchestral = [one for one in others if one.slug in ("strings", "timpani") or one.figure or one.slug in MAIN]
    winds = [one for one in orchestral if one.slug in MAIN]
    listed = len(winds) >= 2 or any(one.figure for one in drafts)
    rest_of_orchestra(whole[0], others, forces)
    for draft in whole:
        if draft.collective == "pieces" and not listed:
            continue
        told = draft.role == "ensemble" and len([one for one in others if one.start > draft.start]) >= FEWEST_OF_BAND
        if (draft.slug == "orchestra" and listed) or (draft.slug != "orchestra" and told):
            drafts.remove(draft)
        else:
            draft.open = True
            draft.count = draft.count if draft.most > 1 else None
            soloists_with(draft, drafts, forces)


def rest_of_orchestra(body: Draft, others: list[Draft], forces: Forces) -> None:
    """Keep brass and strings open beside an orchestra of which no more than ``triple woodwind`` is told, and say so."""
    winds = [one for one in others if family_named(one) in WINDS]
    strings = any("strings" in (family_named(one), one.heading) for one in others)
    if body.slug != "orchestra" or strings or not winds or any(one.collective != "fold" for one in winds):
        return
    last = max(at for at, one in enumerate(forces.drafts) if any(one is wind for wind in winds))
    forces.drafts.insert(last + 1, Draft("brass-instrument", body.start, body.end, open=True, group=body.group))
    forces.drafts.append(Draft("strings", body.start, body.end, group=body.group))
    message = "Of the orchestra only the woodwind is told; its brass and strings were left open."
    forces.remark("orchestra", message, body.start, body.end, "woodwind alone")


def stays(drafts: list[Draft], at: int) -> bool:
    """Whether an ensemble by its mere name stands beside what else is named, and does not only introduce it."""
    draft = drafts[at]
    after = sum(is_played(one) for one in drafts[at + 1 :])
    before = sum(is_played(one) for one in drafts[:at])
    return draft.count is not None or (after < 2 and (before < 2 or draft.separator.endswith("&")))


def is_played(draft: Draft) -> bool:
    return draft.family not in ("voice", "electronics") and draft.slug not in ("conductor", "dancer")


def soloists_with(body: Draft, drafts: list[Draft], forces: Forces) -> None:
    """Read instruments beside an orchestra that is not itemised as soloists, and open its strings."""
    if body.slug != "orchestra":
        before_band(body, drafts)
        return
    sung = any(one.slug.startswith("choir") for one in drafts)
    for draft in drafts:
        apart = draft is not body and draft.slug != "strings" and draft.heading != "strings"
        beside_choir = sung and family_named(draft) in ("keyboard", "plucked", "percussion")
        if apart and is_played(draft) and draft.role == "ensemble" and not beside_choir:
            draft.role = "soloist"
    if not any("strings" in (draft.slug, draft.heading) for draft in drafts):
        at = next(index for index, one in enumerate(drafts) if one is body)
        drafts.insert(at + 1, Draft("strings", body.start, body.end, group=body.group, role=body.role))


def family_named(draft: Draft) -> str:
    """Return the family of a draft, that of the first instrument of its name where it is not settled yet."""
    return draft.family or (family_of(draft.name.slugs[0]) if draft.name is not None and draft.name.slugs else "")


def before_band(body: Draft, drafts: list[Draft]) -> None:
    """Read the one player named before a band that is not itemised, ``euphonium and brass band``, as its soloist."""
    played = [draft for draft in drafts if draft is not body and is_played(draft)]
    alone = len(played) == 1 and played[0] is drafts[0] and drafts[1] is body and body.separator.strip() in ("&", "+")
    if alone and played[0].count is None and played[0].family in ("woodwind", "brass") and not played[0].plural:
        played[0].role = "soloist"


def copies_in_set(forces: Forces) -> None:
    """Leave the players open where numbers are joined to every name by a hyphen: copies of printed parts."""
    joined = [draft for draft in forces.drafts if draft.collective == "copies"]
    if len(joined) < 3:
        return
    message = "The numbers before the names were read as copies of printed parts, not players."
    forces.remark("printed-set", message, joined[0].start, joined[-1].end, "numbers of players")
    for draft in joined:
        if draft.count is not None and draft.slug not in ("timpani", "percussion"):
            draft.notes.append(f"{draft.most} copies")
            draft.count, draft.open = None, True


def is_orchestral(forces: Forces) -> bool:
    """Whether the text is that of an orchestra or band: a formula, timpani, a body of strings, sections of winds."""
    drafts = forces.drafts
    body = any(draft.slug == "strings" and not small_body(draft) for draft in drafts)
    body = body or sum(map(is_section, drafts)) >= SECTIONS
    kettle = any(draft.slug == "timpani" for draft in drafts)
    winds = [draft for draft in drafts if instrument(draft.slug).family in ("woodwind", "brass")] if drafts else []
    pairs = sum(draft.most >= 2 for draft in winds if not draft.collective)
    packed = "run together" in forces.dresses and any(draft.most > 1 for draft in drafts)
    return body or kettle or pairs >= 5 or packed


def is_section(draft: Draft) -> bool:
    """Whether a string instrument is named in the plural without a number, ``violins I``."""
    return draft.slug in STRINGS and draft.plural and draft.count is None and draft.role == "ensemble"


def small_body(draft: Draft) -> bool:
    """Whether the strings are single players: figures of one, or of one and two for six players at most."""
    numbers = [most for _, most in draft.numbers]
    stretches = [*draft.clauses, *(bracket.nodes for bracket in draft.brackets)]
    numbers += [most for nodes in stretches for _, most, _ in figures_in(nodes)]
    few = sum(numbers) <= MOST_OF_SMALL_BODY and max(numbers, default=0) <= 2
    return bool(numbers) and (max(numbers) <= 1 or few)
