"""What other programs write and read: spreadsheets in and out, pasted lists, lists of movements.

``tables``          a CSV, XLSX or ODS file as rows of text, within limits (``archives``, ``sheet_sizes``)
``columns``         which column is which, by its header (``columns.toml``)
``pasted``          a list pasted from a word processor, as such a table (``pasted_entries`` reads one work of it,
                    ``word_text`` the text of a file, ``drafts`` keeps works while they are corrected)
``work_rows``       what a row says, and ``performance_rows``; ``cell_words``, ``performer_lists``, ``movement_lists``
                    read its cells
``importing``       import_table: a table into the catalogue, all of it or nothing; ``outcomes`` its report
``batches``         bring_in, look_over, keep: an import that is looked over first; ``changes`` in words
``exporting``       export_csv, export_xlsx: the same columns out; ``formula_guard`` keeps cells from being formulas
"""
