"""What other programs write and read: spreadsheets in and out, pasted lists, lists of movements.

``tables``          a CSV, XLSX or ODS file as rows of text, within limits (``archives``, ``sheet_sizes``)
``columns``         which column is which, by its header (``columns.toml``)
``pasted``          a list pasted from a word processor, as such a table
``work_rows``       what a row says, and ``performance_rows``; ``cell_words``, ``performer_lists``, ``movement_lists``
                    read its cells
``importing``       import_table: a table into the catalogue, all of it or nothing; ``outcomes`` its report
``exporting``       export_csv, export_xlsx: the same columns out; ``formula_guard`` keeps cells from being formulas
"""
