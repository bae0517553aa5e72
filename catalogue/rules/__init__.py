"""What is true or due, decided from plain values; no database, no clock of its own.

``premieres``    reckon: what each performance was; ``playings``, ``firsts`` and ``parts`` weigh it,
                 ``premiere_wording`` words it, ``billing`` and ``contradictions`` compare it with what was printed,
                 ``overrides`` are what stands instead, set by hand
``needs``        what a performance to come still lacks, and by when
``identifiers``  ISWC, ISMN, ISNI, ISRC and IPI numbers: form, check digit, what is wrong
``countries``    the codes of ISO 3166-1; ``states`` their names, and those of some states that are gone
``search``       how a text is folded for comparing
"""
