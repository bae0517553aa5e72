"""What a performance needs besides the players: electronics, lists of channels, a stage, and whether they agree.

``terms``      the values
``lists``      how a typed list is cut into rows
``reading``    what each sort of row says
``layouts``    loudspeakers as named channels with azimuth and elevation
``media``      rates and sizes of media files
``checks``     what does not agree
``items``      what has to be there, one by one
``riders``     what a rider is made of
``halls``      what of it a hall's list of equipment has
``revisions``  what is different since it was last sent
"""
