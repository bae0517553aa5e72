"""Calls for works: what a call's text asks for, and which works answer it.

=================  ====================================================================
``terms``          the values: Call and what it may ask for
``reading``        a call's text → Proposal: a Call, each field beside the words it came from
``passages``       the text in passages, each with its label (``figures``: numbers and dates in running text)
``deadlines``, ``limits``, ``dating``, ``novelty``, ``entrants``, ``materials``, ``portfolios``, ``sound``
                   one subject of a call each, read from its passages
``forces``         which players a call offers, and as most, exactly or any of them
``screening``      every work against every condition of a call: yes, no, cannot tell
=================  ====================================================================

A call is read by general rules of the language, never by lists of known calls; what is not understood is left unsaid
and shown to be entered by hand. Rules: common practice of calls for works, competitions and readings.
"""
