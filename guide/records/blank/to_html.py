"""A blank setup sheet as one HTML file that prints: everything escaped, nothing fetched."""

from __future__ import annotations

from html import escape

from guide.plain import N_
from guide.present.words import say, written
from guide.procedure.model import Procedure
from guide.records.blank.lines import ON_PAPER, Entry, entries
from guide.records.to_html import POLICY

STYLE = """
@page { size: A4; margin: 14mm 12mm; }
body { font: 10pt/1.35 sans-serif; color: #000; background: #fff; margin: 1.5em; max-width: 50em; }
h1 { font-size: 15pt; margin: 0 0 .3em; }
h2 { font-size: 12pt; margin: 1.2em 0 .3em; border-bottom: 2px solid #000; break-after: avoid; }
h3 { font-size: 10pt; margin: .8em 0 .1em; break-after: avoid; }
p, ul { margin: .15em 0; }
section.step { break-inside: avoid; border-bottom: 1px solid #767676; padding-bottom: .4em; }
section.gate { border: 2px solid #000; padding: 0 .5em .4em; margin: .5em 0; }
.paper { border: 3px solid #000; padding: .4em .6em; font-weight: bold; }
.where { font-style: italic; }
.hurts { font-weight: bold; }
ul.ticks { list-style: none; padding: 0; }
.tick { display: inline-block; width: .9em; height: .9em; border: 1.5px solid #000;
  margin-right: .5em; vertical-align: -.1em; }
.write { display: flex; align-items: flex-end; gap: .5em; min-height: 2em; }
.write span { flex: 1; min-width: 8em; border-bottom: 1px solid #000; }
table { border-collapse: collapse; margin-top: .3em; }
th, td { border: 1px solid #767676; min-width: 3.2em; text-align: center; font-weight: normal; }
td { height: 2em; }
"""


def to_html(procedure: Procedure, language: str = "en") -> str:
    """The whole sheet as one HTML document."""
    told = "\n".join(
        f"<h2>{escape(title)}</h2>\n" + "\n".join(_step(each, language) for each in steps)
        for title, steps in entries(procedure, language)
    )
    title = escape(written(procedure.title, language))
    names = (N_("Setup sheet, blank"), N_("revision"))
    blank, revision = (escape(say(each, language)) for each in names)
    return (
        f'<!DOCTYPE html>\n<html lang="{escape(language)}">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">\n'
        '<meta name="viewport" content="width=device-width">\n'
        f"<title>{title}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<h1>{title}</h1>\n"
        f"<p>{blank} · {escape(procedure.name)} · {revision} {escape(procedure.revision)}</p>\n"
        f'<p class="paper">{escape(say(ON_PAPER, language))}</p>\n'
        f"<p>{escape(written(procedure.purpose, language))}</p>\n{told}\n</body>\n</html>\n"
    )


def _step(step: Entry, language: str) -> str:
    """One step with room to write."""
    only = escape(say(N_("Only where:"), language))
    parts = [
        f"<h3>{step.number}. {escape(step.title)}</h3>",
        *([f'<p class="where">{only} {escape(step.where)}</p>'] if step.where else ()),
        *(f"<p>{escape(line)}</p>" for line in step.say.splitlines()),
        *(f'<p class="hurts">! {escape(each)}</p>' for each in step.cautions),
    ]
    if step.ticks:
        rows = (f'<li><i class="tick"></i>{n}. {escape(e)}</li>' for n, e in _from_1(step.ticks))
        parts.append(f'<ul class="ticks">{"".join(rows)}</ul>')
    parts.extend(f'<p class="write">{escape(each)}<span></span></p>' for each in step.asks)
    if step.cells:
        heads = "".join(f"<th>{escape(each)}</th>" for each in step.cells)
        parts.append(f"<table><tr>{heads}</tr><tr>{'<td></td>' * len(step.cells)}</tr></table>")
    kind = "gate" if step.gate else "step"
    return f'<section class="{kind}">\n' + "\n".join(parts) + "\n</section>"


def _from_1(told: tuple[str, ...]) -> list[tuple[int, str]]:
    """Numbered as on the screens."""
    return list(enumerate(told, start=1))
