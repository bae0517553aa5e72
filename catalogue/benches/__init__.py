"""How quick the house is: each subject measured beside a bound that no honest way of doing the same can beat by much.

``measuring``  two ways of doing the same, measured in turns in one run
``invented``   catalogues of any size, facts and rows, always the same
``scratch``    a database that lives as long as the run
``table``      the figures as the table that the repository keeps
``subjects``   one module a subject, found by being there; each has ``BENCHES``
"""
