"""Two hundred texts that somebody might type to break out of wherever text is printed.

Each that would make something makes an element, an attribute or an address named ``planted``, so that a reader of the
output can tell whether it did. The ways are common knowledge of the web (OWASP's cheat sheets on injection name them);
the texts are ours.
"""

from __future__ import annotations

from itertools import product

TAGS = (
    "<planted>", "<PLANTED/>", "</title><planted>", "</textarea><planted>", "</script><planted>", "</style><planted>",
    "<script>planted()</script>", "<scr<script>ipt>planted()</script>", "<img src=x onerror=planted()>",
    "<svg onload=planted()>", "<svg><script>planted()</script></svg>", "<math><planted></math>", "<!--><planted>",
    "--><planted>", "]]><planted>", "<![CDATA[<planted>]]>", "<?planted?>", "<!DOCTYPE planted>",
    "<iframe srcdoc='<planted>'>", "<object data=planted>", "<embed src=planted>", "<base href=//planted.example/>",
    "<meta http-equiv=refresh content='0;url=//planted.example'>", "<link rel=stylesheet href=//planted.example>",
    "<form action=//planted.example><input>", "<details open ontoggle=planted()>", "<video><source onerror=planted()>",
    "<a href=javascript:planted()>x</a>", "<template><planted></template>", "<noscript><planted></noscript>",
    "<select><planted>", "<table><planted>", "<foreignObject><planted></foreignObject>", "<use href=data:,planted>",
    "<style>@import '//planted.example'</style>", "<body onload=planted()>", "<marquee onstart=planted()>",
    "<x:planted xmlns:x='planted'>", "<\u0001planted>", "<planted\u000c>",
)  # fmt: skip
BREAKOUTS = tuple(
    f"{quote}{close}"
    for quote, close in product(
        ("'", '"', "`", "\\'", '\\"', "&quot;", "&#34;", "\u201d"),
        (" planted=1 ", "><planted>", " onfocus=planted() autofocus "),
    )
)
ADDRESSES = (
    "javascript:planted()", "JaVaScRiPt:planted()", "java\tscript:planted()", " javascript:planted()",
    "data:text/html,<planted>", "vbscript:planted()", "//planted.example/", "https://planted.example/\r\nX-Planted: 1",
    "[x](javascript:planted())", "[x](<javascript:planted()>)", "![](https://planted.example/x.png)",
    "<https://planted.example>", "[planted]: javascript:planted()", "[x][planted]", "`<planted>`", "    <planted>",
    "~~~\n<planted>\n~~~", "> <planted>", "1. <planted>", "# <planted>", "| <planted> |\n| --- |", "\\<planted>",
    "<a\nhref='javascript:planted()'>x</a>", "***<planted>***", "&lt;planted&gt;", "&#60;planted&#62;",
    "&amp;lt;planted",
)  # fmt: skip
TEMPLATES = (
    "{{ planted }}", "{% load planted %}", "{% include 'planted' %}", "{{ 7|add:7 }}", "{# planted #}", "${planted}",
    "#{planted}", "<%= planted %>", "%(planted)s", "{planted}", "{0.__class__}", "%s%n%x", "\\u003cplanted\\u003e",
    "\\x3cplanted\\x3e", "hx-get=/planted", "<p hx-get='/planted' hx-trigger=load>", "<p data-hx-post='/planted'>",
)  # fmt: skip
FORMULAS = tuple(
    f"{sign}{formula}"
    for sign, formula in product(
        ("=", "+", "-", "@", "\t=", "\r=", " =", "\uff1d", "\uff0b", "\uff20"),
        ("1+1", 'HYPERLINK("https://planted.example","x")', "cmd|'/c planted'!A0"),
    )
)
MARKUP = (
    "<para>", "<para fontSize=99>", "<b>", "</b>", "<font color=planted>", "<a href='https://planted.example'>x</a>",
    "<img src='/etc/hostname'/>", "<seq id=planted/>", "<onDraw name=planted/>", "<br/>", "<super>2</super>",
    "<bullet>planted</bullet>", "<unichar code=60/>", "<evalString code='planted'/>", "<index item=planted/>",
    "&nbsp;", "<greek>a</greek>",
)  # fmt: skip
LINES = (
    "x\r\nBEGIN:VEVENT\r\nSUMMARY:planted", "x\nEND:VCALENDAR", "x\\nPLANTED:1", "x;PLANTED=1:y", "x\r\nPLANTED:1",
    "x,y;z:\\", '";PLANTED="1', "x\r\nATTACH:file:///etc/hostname", "x\r\n\r\n<planted>", "x\r\nSet-Cookie: planted=1",
    'x"; filename="planted.exe', "../../planted", "C:\\planted", "x\u2028PLANTED:1", "x\u2029PLANTED:1",
    "x\u0085PLANTED:1",
)  # fmt: skip
QUERIES = (
    "' OR 1=1 --", "'; DROP TABLE catalogue_work; --", "1) UNION SELECT planted--", "%' ESCAPE '!", "_%_%", "\\'; --",
    "$$planted$$", "*:*", "NULL", "undefined", "NaN", "-1", "1e309",
)  # fmt: skip
LETTERS = (
    "\u202eplanted\u202c", "\u2066planted", "\u200b\u200b", "\u00adx\u00ad", "\ufeffx", "\ufffd", "e\u0301\u0301\u0301",
    "\u0e01" + "\u0e49" * 12, "\U0001d11e\U0001f3bb", "\u05d0\u0628 a \u05d1\u062a", "I\u0307i\u0131",
    "\u1e9e\u00df\ufb01",
    "x" * 190, "\u4e00" * 60, " ", "\u00a0", "...", "\u2026", "\u0301x", "\ud7ff\ue000", "a\tb", "a\n\n\n\nb",
)  # fmt: skip
HOSTILE = (*TAGS, *BREAKOUTS, *ADDRESSES, *TEMPLATES, *FORMULAS, *MARKUP, *LINES, *QUERIES, *LETTERS)
"""All of them, each once."""


def joined(start: int, most: int) -> str:
    """Return as many of them as have room in so many characters, from that one on; one longer than that is cut."""
    told = HOSTILE[start % len(HOSTILE)][:most]
    for step in range(1, len(HOSTILE)):
        longer = f"{told} {HOSTILE[(start + step) % len(HOSTILE)]}"
        if len(longer) > most:
            break
        told = longer
    return told
