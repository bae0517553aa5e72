"""The PDF renderer, from what was typed to bytes.

``faces``    the typefaces: which has a character, how wide, a subset to embed
``bidi``     the order of characters in a line
``setting``  text to lines of glyphs; the only door from user text to the page
``canvas``   the operators of one page
``flow``     what comes on which page
``ground``, ``entries``, ``tables``, ``blocks``   blocks to measured items
``file``     pages to a file
``pages``    all of it: ``render_pdf``

Glyphs are placed by HarfBuzz and written by their numbers, so that no markup language stands between a title and the
page, and joined, stacked and mirrored scripts need no special case.
"""
