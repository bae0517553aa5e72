"""A composer's whole catalogue handed over: to another house, or to the composer.

``tables``     which records go along, and how each hangs on the composer
``archive``    the file: its manifest, its seal, what is refused
``leaving``    hand_over: a catalogue into one file, read back before it counts
``arriving``   look_into, take_over: what a file holds and what stands against it; the file as a new catalogue
"""

from __future__ import annotations
