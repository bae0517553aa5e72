"""The invented demo house: what its files (``fixtures/demo``) say becomes three catalogues that one user keeps.

``rows``     the files, and the records that their rows become, not yet stored
``loading``  composers, members, works and performances; it calls the rest of the loading
``records``  the records around works
``calls``    calls, and what is sent to them
``hires``    hires, packed and brought back
``riders``   riders that have been sent and answered
``files``    scores and recordings that are kept, made here
``papers``   which documents ``manage.py demo`` writes
"""
