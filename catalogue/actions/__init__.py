"""Writes that keep several records true together: atomic, a verb each, with the clock as an argument.

``composers``     create_composer, save_composer
``calendars``     make_address, shut_address, note_reading, open_to_all
``members``       add_member, change_role, remove_member, make_member_code, join
``works``         save_work, index_work, set_movements, set_commissions, set_cues, delete_work, restore_work
``performances``  save_performance, save_venue, delete_performance, restore_performance
``additions``     prepared, add_performances: many new performances at once
``deletion``      delete_record, restore_record: venues, people and organisations
``undoing``       undo_import
``merging``       merge, undo_merge, set_apart
``handovers``     note_given, note_taken: that a catalogue was handed over or taken over
``index``         reindex
``turns``         wait_turn, where no row is there yet that could be locked
``saving``        Overtaken, and how rows are numbered anew
"""
