import { escaped } from './markup.ts';
import { type Report, type ReportPart, type ReportTable, SIGNATURES } from './report.ts';

/** A report as a page of HTML. */
export function printedPage({ title, plant, establishment, lines, parts, notes }: Report): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(`${title}, ${plant}, Est. ${establishment}`)}</title>
<link rel="icon" href="data:,">
<style>${PRINTED_PAGE_STYLE}</style>
</head>
<body>
<header>
<p class="plant">${escaped(plant)}, Est. ${escaped(establishment)}</p>
<h1>${escaped(title)}</h1>
${paragraphs(lines)}
</header>
<main>
${parts.map(partHtml).join('\n')}
</main>
<footer>
${paragraphs(notes)}
${SIGNATURES.map((who) => `<p class="signature">${who} <span></span> Date <span></span></p>`).join('\n')}
</footer>
</body>
</html>
`;
}

function paragraphs(lines: readonly string[]): string {
  return lines.map((line) => `<p>${escaped(line)}</p>`).join('\n');
}

function partHtml({ title, lines = [], table }: ReportPart): string {
  const main = [
    ...(title === undefined ? [] : [`<h2>${escaped(title)}</h2>`]),
    ...(lines.length > 0 ? [paragraphs(lines)] : []),
    ...(table ? [tableHtml(table)] : []),
  ].join('\n');
  return title === undefined ? main : `<section>\n${main}\n</section>`;
}

function tableHtml({ titles, rows, none }: ReportTable): string {
  if (rows.length === 0) return `<p>${escaped(none)}</p>`;
  return `<table>
<thead><tr>${titles.map((text) => `<th>${escaped(text)}</th>`).join('')}</tr></thead>
<tbody>
${rows.map((row) => `<tr>${row.map(cell).join('')}</tr>`).join('\n')}
</tbody>
</table>`;
}

const WEIGHT = /^-?\d+(\.\d+)? (lb|kg|oz|g)$/;
/** A day, the id of a lot or a batch: a break at its hyphens would make it hard to read. */
const HYPHENED = /[\w.]+(?:-[\w.]+)+/g;
/** Longer words may be broken, or the table would not fit on the page. */
const LONGEST_WHOLE = 20;
/** Text that gets room, so that it does not run down the page in a narrow column. */
const LONG_TEXT = 100;

function cell(text: string): string {
  if (WEIGHT.test(text)) return `<td class="weight">${escaped(text)}</td>`;
  const shown = escaped(text).replace(HYPHENED, (word) =>
    word.length <= LONGEST_WHOLE && /\d/.test(word) ? `<span class="whole">${word}</span>` : word,
  );
  return `<td${text.length > LONG_TEXT ? ' class="long"' : ''}>${shown}</td>`;
}

/** Stands in the page itself; the service allows this very text and no other. */
export const PRINTED_PAGE_STYLE = `
body { font: 15px/1.4 system-ui, sans-serif; margin: 0 auto; max-width: 80rem; padding: 1rem; color: #1b1b1b; background: #fff; }
h1 { font-size: 1.4rem; margin: 0 0 .3rem; }
h2 { font-size: 1.1rem; margin: 1.2rem 0 .3rem; }
header p, footer p { margin: .2rem 0; }
.plant { font-weight: 600; }
table { border-collapse: collapse; width: 100%; margin-top: .6rem; font-size: .85rem; }
th, td { text-align: left; vertical-align: top; padding: .3rem .4rem; border: 1px solid #999; }
.weight { text-align: right; white-space: nowrap; }
.whole { white-space: nowrap; }
.long { min-width: 14rem; }
td { overflow-wrap: break-word; }
section { margin-top: 1rem; }
section h2 { border-top: 2px solid #1b1b1b; padding-top: .5rem; }
section p { margin: .1rem 0; font-size: .9rem; }
footer { margin-top: 1rem; font-size: .85rem; color: #333; }
.signature { margin-top: 1.6rem; }
.signature span { display: inline-block; width: 16rem; border-bottom: 1px solid #1b1b1b; margin-right: 1rem; }
@media print { body { max-width: none; padding: 0; font-size: 10pt; } table { font-size: 8pt; } .long { min-width: 0; } thead { display: table-header-group; } tr { break-inside: avoid; } h2, section p { break-after: avoid; } footer { break-inside: avoid; } @page { size: landscape; margin: 12mm; } }
`;
