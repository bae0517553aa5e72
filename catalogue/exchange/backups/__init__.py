"""Everything in one file, and back from it.

A backup is a ZIP with these members, in this order:

``database.sqlite3``          the whole database as it was at one moment, where it is SQLite
``records/<app>.<model>.jsonl``  the same records as lines of JSON, which any database takes
``files/…``                   what was uploaded, each under its SHA-256
``manifest.json``             when, by which migrations, how many rows, and the SHA-256 and size of every member

Its last 64 characters, the end of the archive's comment, are the SHA-256 of all bytes before them, so that no byte can
change unnoticed, those of the ZIP itself included.

``archive``     the file: its members, its seal, its manifest
``lines``       records as lines, for the tables as they were at any migration
``databases``   connections that live for a while: a snapshot, a fresh database, a fresh schema
``writing``     making a backup
``checking``    reading one back, whole
``restoring``   putting one in the place of the catalogue, or trying it in a scratch database
``moving``      from one database into another, compared table by table
``uploads``     uploaded files, from a folder or an object storage
``keeping``     a backup a day, and which of them stay
``upgrading``   backup, migrations, and the way back where they fail
"""
