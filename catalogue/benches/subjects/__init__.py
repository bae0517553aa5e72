"""One module a subject: ``BENCHES`` is a tuple of ``catalogue.benches.measuring.Bench``, under its ``HEADING``."""
