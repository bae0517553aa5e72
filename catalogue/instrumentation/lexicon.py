"""The words around the names: joining, doubling, optional, solo, off-stage, amplified, headings, remarks.

Sets of keys (see ``vocabulary.key_of``) in English, German, French, Italian and Spanish. Source: common practice of
works lists and publishers' catalogues.
"""

from __future__ import annotations

import re

from catalogue.instrumentation.vocabulary import key_of

SPOKEN: set[str] = set()
"""The keys of all single words that the trade writes around names."""


def keyed(words: str) -> frozenset[str]:
    """Return the keys of the words; a blank inside an entry is written ``_``. Their single words are kept as spoken."""
    SPOKEN.update(key_of(one) for one in re.split(r"[ _'-]", words))
    return frozenset(key_of(word.replace("_", " ")) for word in words.split())


AND = keyed("and und u et e ed y & dan og och en plus") | {"&"}
OR = keyed("or oder ou o od opp oppure")
ARTICLES = keyed(
    "the a an l' la le les der die das den dem il lo gli i el los las un une une uno una des du de di del della degli "
    "dello of von pour per para für for on zu with mit avec con from your"
)
FOR = keyed("for für pour per para")

DOUBLING = keyed(
    "doubling doubles double doubl dbl dbls doubled dbling also auch aussi anche également également_la alternating "
    "alternates alterniert wechselnd alternando también tambien doblando dobla muta mutano prend prenant doublant "
    "alternant jouant jouera suonando tocando spielend "
    "plays playing play takes taking change changing switching doppelt raddoppia nimmt doublent take "
    "spielt spielen joue jouent suona suonano toca tocan "
    "zugleich alterna switches alternierend plus_also alt'ing equally"
)
ONLY = keyed("only nur seul seulement soltanto solamente sólo alone")
DOUBLING_FILL = keyed(
    "on to the a an may can could will optionally who with player players musician of them their die der das la le les "
    "il lo l' l part parts auf mit zu that which one's being either on_the all'occasione el los chair desk stand "
    "their either jeweils als in addition dont davon di_cui"
)
PLAYS_WORDS = keyed("playing plays play spielt spielen joue jouent suona suonano toca tocan")

OPTIONAL = keyed(
    "optional opt optionally ad_lib ad_libitum adlib ad.lib. optionnel optionnelle optionnels optionnelles facultatif "
    "facultative facultatifs fakultativ facoltativo facoltativi facoltativa opcional opcionales opzionale opzionali "
    "wahlweise ad_libit if_available if_possible nach_belieben wenn_vorhanden fak facolt opts fac facult opc opz"
)
POSSIBLE = keyed("possible possibly evtl eventuell éventuel éventuellement eventuale eventualmente posible eventual")
OPEN_NUMBER = keyed(
    "open offen ouvert ouverts ouverte ouvertes aperto aperti aperta aperte abierto abiertos abierta abiertas "
    "any_number number_open open_number anzahl_offen anzahl_beliebig nombre_ouvert nombre_libre numero_aperto "
    "numero_libero número_abierto número_libre"
)
AMPLIFIED = keyed(
    "amplified ampd amp amplification verstärkt verstärktes verstärkte verstärkter verstärkten amplifié amplifiée "
    "amplifiés amplifiées amplificato amplificata amplificati amplificate amplificado amplificada amplificados "
    "amplificadas ampl electrified"
)
ELECTRIC = keyed(
    "electric eléctrica eléctrico eléctricas eléctricos elektrisch elektrische elektrisches elettrico elettrica "
    "électrique électriques elettrici elettriche elec electrical"
)
SOLO = keyed(
    "solo sola solas soli solos soloist soloists solist solisten solistin soliste solistes solista solisti "
    "solistas principal solistisch seul seule allein concertante concertanti konzertierend"
)
SOLISTS = keyed("soli solos soloists solisten solistes solisti solistas")
OFFSTAGE = keyed(
    "offstage off-stage backstage banda fernorchester in_lontananza derrière_la_scène hinter_der_szene "
    "fuori_scena interno hinter_der_bühne en_coulisse fuera_de_escena dietro_la_scena off_stage behind_the_scenes "
    "dans_la_coulisse en_coulisses dentro_la_scena hinter_den_kulissen lontano distant interna"
)
ONSTAGE = keyed(
    "onstage on-stage on_stage stage_band bühnenmusik musica_sul_palco musique_de_scène sul_palco banda_sul_palco "
    "auf_der_bühne bühnenorchester sur_scène sobre_el_escenario en_escena sulla_scena"
)
GROUP = keyed(
    "orchestra orchestre orchester orquesta group groupe gruppe gruppo grupo ensemble choir coro chor chœur formation "
    "version fassung besetzung"
)

BODY_NOUNS = {
    **dict.fromkeys(("orch", "orchester", "orchestre", "orquesta", "orq"), "orchestra"),
    **dict.fromkeys(("gruppe", "gruppo", "grupo", "groupe"), "group"),
    **dict.fromkeys(("chor", "coro", "choeur"), "choir"),
}
"""The English noun of the label of a second body, by the key of the word in the text."""
VERSIONS = keyed(
    "version versions fassung versione versión besetzung scoring instrumentation forces organico effectif formation "
    "orchestration plantilla"
)
"""Words that end the label of a whole list, ``Reduced version: …``."""

USUAL_FORCES = keyed(
    "standard_instrumentation usual_instrumentation normal_instrumentation full_instrumentation standard_scoring "
    "standard_line_up usual_line_up standard_forces standardbesetzung übliche_besetzung normale_besetzung "
    "formation_habituelle effectif_habituel effectif_normal organico_normale organico_consueto plantilla_habitual "
    "plantilla_normal"
)
"""Said after a band or an orchestra, which has the players that it has by custom."""

GENRES = keyed(
    "opera opéra oper ópera operetta operette musical cantata kantate cantate oratorio oratorium ballet ballett "
    "balletto concerto konzert concierto symphony sinfonie sinfonia sinfonía suite requiem mass messe musiktheater "
    "monodrama melodrama melodrama theatre singspiel"
)

HEADINGS = {
    "woodwind": keyed(
        "woodwind woodwinds wind winds wood holzbläser holzbl holz bois legni fiati madera maderas viento_madera "
        "bläser bläsern holzbläsern vents w.w. ww vientos strumentini woodwind_choir wind_choir"
    ),
    "brass": keyed(
        "brass brasses blechbläser blechbläsern blechbl blech cuivres ottoni metales metal viento_metal "
        "brass_section brass_choir"
    ),
    "keyboard": keyed("keyboards keyboard_instruments tasteninstrumente claviers tastiere teclados tasten"),
    "plucked": keyed("plucked plucked_strings zupfinstrumente cordes_pincées pizzichi"),
    "voice": keyed(
        "vocal vocals singers cast solo_voices vocal_soloists voix_solistes solistes_vocaux voci_soliste "
        "voces_solistas solostimmen gesangssolisten vokalsolisten voices voix voci voces stimmen"
    ),
    "other": keyed(
        "others other extra extras miscellaneous various autres altri otros instruments instrumente strumenti "
        "horn_section rhythm_section"
    ),
}
BODY_OF_STRINGS = keyed(
    "string_orchestras orchestres_à_cordes orchestre_d'archi orquestas_de_cuerda orquestas_de_cuerdas "
    "strings string str strs strgs stgs strings_section string_section string_orchestra str_orch str_orch. streicher "
    "streichorchester streicherensemble cordes cdes orchestre_à_cordes archi orchestra_d'archi cuerda cuerdas cds "
    "strng "
    "orquesta_de_cuerda orquesta_de_cuerdas full_strings streichinstrumente strg strs cda string_body "
    "body_of_strings streichern quintetto_d'archi_in_orchestra "
    "smyczki stråkar stryk str's streich strings_(full) 弦楽 弦楽器"
)
ORCHESTRA = keyed(
    "orchestra orch orchester orchestre orquesta full_orchestra chamber_orchestra symphony_orchestra kammerorchester "
    "large_orchestra small_orchestra großes_orchester kleines_orchester grand_orchestre grande_orchestra "
    "piccola_orchestra orchestre_symphonique orchestra_sinfonica orquesta_sinfónica gran_orquesta "
    "youth_orchestra school_orchestra children's_orchestra student_orchestra amateur_orchestra community_orchestra "
    "jugendorchester schulorchester kinderorchester studentenorchester amateurorchester liebhaberorchester "
    "barockorchester baroque_orchestra orchestre_baroque orchestra_barocca orquesta_barroca period_orchestra "
    "sinfonisches_orchester orchestre_de_jeunes orchestra_giovanile orquesta_juvenil orquesta_escolar "
    "orchestre_de_chambre orchestra_da_camera orquesta_de_cámara sinfonieorchester sinfonietta orq"
)
BANDS = {
    "wind-band": keyed(
        "wind_band wind_orchestra symphonic_band symphonic_wind_ensemble symphonic_wind_band symphonic_wind_orchestra "
        "wind_symphony concert_band wind_ensemble military_band band blasorchester "
        "youth_band school_band youth_wind_band jugendblasorchester schulblasorchester landesblasorchester blaskapelle "
        "musikkapelle stadtkapelle sinfonisches_blasorchester symphonisches_blasorchester orquesta_de_vientos "
        "orchestra_di_fiati "
        "orchestre_d'harmonie harmonie banda_sinfonica banda_sinfónica symphonic_winds"
    ),
    "brass-band": keyed("brass_band youth_brass_band"),
    "big-band": keyed("big_band jazz_band jazz_orchestra jazzorchester orchestre_de_jazz orquesta_de_jazz"),
}
ENSEMBLE = keyed(
    "instrumentation scoring forces besetzung organico "
    "ensemble ensembles ens players player instruments instrument instrumentalists musicians musicien musiciens "
    "spieler "
    "musiker exécutants esecutori esecutore strumenti instrumente músicos performers performer instrumentos esec "
    "instrumentists instrumentistas ejecutantes ejecutante musicisti suonatori spielern musikern"
)
TREBLE = keyed("treble melody melodic bass high low c b-flat e-flat string wind brass woodwind wood")
ANY = keyed(
    "any beliebige beliebig quelconques quelconque qualsiasi cualquier cualesquiera variable unspecified open flexible"
)

PLAYERS = keyed(
    "players player spieler spl esec esecutori esecutore exécutants exécutant instrumentistes ejecutantes ejecutante "
    "percussionists percussionist schlagzeuger percussionnistes musicians suonatori players_required pl executants "
    "instrumentistas percusionistas strumentisti ausführende ausführenden "
    "spielern esec. intérpretes musicos performers spl musicien musiciens musicista musicisti músico músicos musiker "
    "interprète interprètes suonatore joueurs"
)
DESKS = keyed("desks desk stands stand pulte pult pupitres leggii leggio atriles atril pults")
UP_TO = keyed(
    "up_to bis_zu jusqu'à fino_a hasta at_most max maximum maximal höchstens au_plus al_massimo como_máximo "
    "no_more_than maximum_of a_maximum_of max_of maximal_of"
)
BETWEEN = keyed("between zwischen entre tra fra")
PREFERRED = keyed(
    "preferred recommended ideally ideal preferably empfohlen bevorzugt recommandé consigliati preferible suggested"
)
LEAST = keyed(
    "min minimum at_least mind mindestens au_moins minimo mínimo almeno no_fewer minimal mindest least moins al_menos"
)
SETS = keyed("set sets satz sätze jeu jeux serie juego juegos")
"""Words for the drums of one timpanist."""
IN_PAIRS = keyed("in_pairs à_deux par_deux par_paires a_coppie a_due a_pares doppelt_besetzt zu_zweit paarweise")
"""Said after the names of winds of each of which there are two."""
PAIRS_OF = keyed("pairs_of pair_of paarweise je_zwei zwei_mal paires_de coppie_di pares_de")
"""Said before them."""
ONE_TO_A_PART = keyed(
    "one_to_a_part one_to_each_part one_on_a_part one_per_part one_player_per_part one_player_to_a_part one_a_part "
    "one_player_each one_each einzeln_besetzt einfach_besetzt einfache_besetzung solistisch_besetzt solistisch "
    "single_players solo_players un_par_partie "
    "un_par_pupitre uno_per_parte uno_por_parte uno_por_atril"
)
EACH = keyed("each every je jeweils jedes chacun chacune ciascuno ciascuna ognuno cada per_orchestra")
FROM = keyed("from among aus unter parmi entre tra fra chosen_from drawn_from selected_from out_of")
LIVE = keyed(
    "live en_vivo dal_vivo "
    "en_direct temps_réel en_temps_réel tempo_reale in_tempo_reale in_echtzeit en_tiempo_real realtime real-time"
)
OF = keyed("of von de di da d aus")
MUST = keyed("must_include has_to_include have_to_include must_contain muss_enthalten doit_comprendre debe_incluir")
PIECES = keyed("piece pieces member members man köpfig köpfige köpfiges musicians musiker musiciens")
WITHOUT = keyed("no without ohne sans senza sin kein keine")
PARTS_IN_SET = keyed("set satz parts printed copies")

REMARKS = keyed(
    "in usual standard full large small divided divisi div always also_in sounding modern valve two-manual mounted "
    "prepared tuned pitched untuned unpitched muted with mute only no not including comprising consisting "
    "comprises consists besteht aus "
    "ensemble group section live augmented "
    "all each per or_more some several more less large_section approx circa ca. c. total tutti stage score large "
    "große großes großer großem kleiner kleine kleines groß besetzung "
    "besetzt stark petit grand piccoli medi complete minimal lg med wenn möglich "
    "multiple various classical separate additional further players player "
    "baroque barock barockes barocke baroques barocco barocchi barroco period historical historische "
    "traditional natural flexible recommended "
    "original version arr music canon piece work ballet including cubic surround ambisonic binaural ambisonique "
    "ambisonico ambisónico binaurale multichannel consort choice wordless textless "
    "unaccompanied unacc unbegleitet cappella capela acappella possible möglich wanted sowie nebst playing"
)

DESCRIBING = keyed(
    "muted mute valve tuned baroque barock barockes barocke baroques barocco barocchi barroco period historical "
    "historische natural traditional divided prepared pitched untuned unpitched ambisonic binaural ambisonique "
    "ambisonico ambisónico binaurale wordless textless"
)
"""Words that say something of the players named after or before them, which is kept as a note."""

KEYS_OF_PITCH = frozenset(
    key_of(one)
    for one in (
        "a b c d e f g h bb eb ab db gb es as des "
        "b-flat e-flat a-flat d-flat bflat eflat b_flat e_flat sib mib lab la si "
        "do re mi fa sol ut sol♭ reb ré f# f-sharp si♭ mi♭ la♭ sol# f-dur"
    )
    .replace("_", " ")
    .split(" ")
) | {"flat", "bemolle", "bemol", "sharp", "b", "natural", "bflat", "eflat"}
IN = keyed("in en in_key")
