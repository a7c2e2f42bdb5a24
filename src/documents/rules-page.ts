import type { LimitsList } from './limits-text.ts';

/** What the page of rules shows, beside what else it could show. */
export interface RulesPage {
  readonly list: LimitsList & { readonly jurisdiction: string; readonly date: string };
  readonly places: readonly { readonly jurisdiction: string; readonly says: string }[];
  /** Every class of the place, for the choice. */
  readonly classes: readonly { readonly productClass: string; readonly says: string }[];
  readonly productClass?: string;
}

type RulesStandard = LimitsList['standards'][number];
type RulesLimit = RulesStandard['limits'][number];

const MARKS: Readonly<Record<string, string>> = {
  official: 'read in the official text',
  secondary: 'read in a text that quotes it',
  'from memory': 'from memory: look at the rule itself',
};

/** Every limit of a place on a day, with its basis, its source and how it was read, as a page for a browser. */
export function rulesPage({ list, places, classes, productClass }: RulesPage): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Rules: ${escaped(list.says)}, ${list.date}</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="/rules/page.css">
</head>
<body>
<header>
<h1>Rules on ${list.date}</h1>
<form method="get" action="/rules">
<label>Market ${choice(
    'jurisdiction',
    options(
      places.map(({ jurisdiction, says }) => [jurisdiction, says]),
      list.jurisdiction,
    ),
  )}</label>
<label>Product class ${choice(
    'productClass',
    `<option value="">all classes</option>${options(
      classes.map((entry) => [entry.productClass, entry.says]),
      productClass,
    )}`,
  )}</label>
<label>Day <input type="date" name="date" value="${list.date}" required></label>
<button>Show</button>
</form>
<p>${escaped(list.says)}. Text read: ${escaped(list.edition)}.</p>
<p class="caution">Local rules, the inspector and the HACCP plan of the plant come before this page.</p>
</header>
<main>
${list.standards.map((standard) => section(standard, list.standards.length === 1)).join('\n')}
</main>
</body>
</html>
`;
}

function section({ says, citation, limits, laboratory }: RulesStandard, open: boolean): string {
  const tests =
    laboratory.length === 0
      ? ''
      : `<h3>Needs a laboratory test, which no formula can replace</h3>
<ul>${laboratory.map((limit) => `<li>${escaped(limit.says)} ${source(limit)}</li>`).join('')}</ul>`;
  return `<details${open ? ' open' : ''}>
<summary>${escaped(says)} <small>${escaped(citation)}, ${limits.length} limits</small></summary>
<table>
<thead><tr><th>Limit</th><th>What is counted</th><th>Of what</th><th>Bound</th><th>Source</th></tr></thead>
<tbody>
${limits.map(row).join('\n')}
</tbody>
</table>
${tests}
</details>`;
}

function row(limit: RulesLimit): string {
  const { says, numerator = '', basis = '', note } = limit;
  const more = note ? `<br><small>${escaped(note)}</small>` : '';
  return `<tr><td>${escaped(says)}${more}</td><td data-name="Counted">${escaped(numerator)}</td><td data-name="Of">${escaped(basis)}</td><td data-name="Bound">${bound(limit)}</td><td data-name="Source">${source(limit)}</td></tr>`;
}

function bound({ sense, bound: figure, unit }: RulesLimit): string {
  if (sense === 'present') return 'must be there';
  if (sense === 'max' && figure === 0) return 'none';
  const words: Readonly<Record<string, string>> = { max: 'at most', min: 'at least', target: 'just' };
  return `${words[sense ?? 'max']} ${figure} ${unit === 'percent' ? '%' : unit}`;
}

function source({ citation, read, inForce }: RulesLimit): string {
  const from = inForce?.from ? `<br>from ${inForce.from}` : '';
  const until = inForce?.until ? `<br>until the day before ${inForce.until}` : '';
  const kind = read.replaceAll(' ', '-');
  return `<span class="source">${escaped(citation)}${from}${until}</span> <em class="${kind}">${MARKS[read] ?? escaped(read)}</em>`;
}

function choice(name: string, content: string): string {
  return `<select name="${name}">${content}</select>`;
}

function options(entries: readonly (readonly [value: string, text: string])[], chosen?: string): string {
  return entries
    .map(
      ([value, text]) =>
        `<option value="${escaped(value)}"${value === chosen ? ' selected' : ''}>${escaped(text)}</option>`,
    )
    .join('');
}

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (sign) => ENTITIES[sign] ?? sign);
}

export const RULES_PAGE_STYLE = `body { font: 16px/1.45 system-ui, sans-serif; margin: 0 auto; max-width: 72rem; padding: 1rem; color: #1b1b1b; background: #fff; }
h1 { font-size: 1.5rem; margin: 0 0 .5rem; }
h3 { font-size: 1rem; margin: 1rem 0 .25rem; }
form { display: flex; flex-wrap: wrap; gap: .75rem; align-items: end; }
label { display: grid; gap: .2rem; font-size: .85rem; }
select, input, button { font: inherit; padding: .4rem .5rem; max-width: 22rem; }
.caution { border-left: .3rem solid #1b1b1b; padding-left: .6rem; }
details { border-top: 1px solid #bbb; padding: .6rem 0; }
summary { cursor: pointer; font-weight: 600; }
summary small { font-weight: 400; color: #555; }
table { border-collapse: collapse; width: 100%; margin-top: .5rem; font-size: .9rem; }
th, td { text-align: left; vertical-align: top; padding: .35rem .5rem; border-bottom: 1px solid #ddd; }
td:nth-child(4) { white-space: nowrap; }
td small { color: #555; }
em { font-style: normal; font-size: .8rem; display: block; color: #555; }
em.from-memory { font-weight: 700; color: #1b1b1b; }
@media (max-width: 44rem) { thead { display: none; } tr, td { display: block; } td { border: 0; padding: .1rem .5rem; } tr { border-bottom: 1px solid #bbb; padding: .4rem 0; } td[data-name]::before { content: attr(data-name) ": "; color: #555; } }
@media print { form, button { display: none; } details { break-inside: avoid; } }
`;
