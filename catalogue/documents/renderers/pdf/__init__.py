"""The PDF renderer, from what was typed to bytes, drawn with reportlab.

``faces``    the typefaces: which has a character, how wide
``bidi``     the order of characters in a line
``shaping``  a text of one face as glyphs
``codes``    the codes of common characters, which are the same in every file
``setting``  text to lines of glyphs
``fonts``    the faces as reportlab embeds them, glyph by glyph
``text``     ``draw_text``: the only door from text to the page
``canvas``   the pages: text, lines, outline, and which content belongs to what
``flow``     what comes on which page
``ground``, ``entries``, ``tables``, ``blocks``   blocks to measured items
``tags``, ``metadata``   the structure tree, and what the file says of itself
``file``     what reportlab has drawn, with these, as the file that leaves the house
``paths``, ``strips``   shapes, and a player strip, as operators
``pages``    all of it: ``render_pdf``

Glyphs are placed by HarfBuzz and drawn one by one, so that no markup language stands between a title and the page, and
joined, stacked and mirrored scripts need no special case. reportlab's own paragraphs are not used: they read markup,
do not reorder shaped text, and shape a word in one face only.
"""
