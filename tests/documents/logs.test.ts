import { describe, expect, test } from 'vitest';
import { csvOf } from '../../src/documents/logs/csv.ts';
import { type LogTable, logCsv, logPage } from '../../src/documents/logs/log.ts';

describe('CSV', () => {
  // RFC 4180, section 2: CR LF after every line, quotes around a cell with a comma, a quote or a break, quotes doubled.
  test('is quoted where RFC 4180 asks for it', () => {
    const rows = [
      ['plain', 'with, comma', 'with "quotes"'],
      ['two\r\nlines', '', 'ß'],
    ];
    expect(csvOf(['a', 'b,c', 'd'], rows)).toBe(
      'a,"b,c",d\r\nplain,"with, comma","with ""quotes"""\r\n"two\r\nlines",,ß\r\n',
    );
  });

  // OWASP, CSV Injection: a cell that starts with one of these is a formula to a spreadsheet.
  test.each(['=1+1', '+1', '-1+1', '-x', '@SUM(A1)', '\tx', '\rx'])('takes %j for no formula', (text) => {
    const line = csvOf(['title'], [[text]]).slice('title\r\n'.length);
    expect(line.replace(/^"/, '').startsWith(`'${text}`)).toBe(true);
  });

  test('leaves a negative number a number', () => {
    expect(csvOf(['title'], [['-2.54']])).toBe('title\r\n-2.54\r\n');
  });

  test('without rows is its titles', () => {
    expect(csvOf(['a', 'b'], [])).toBe('a,b\r\n');
  });
});

describe('a log', () => {
  const table: LogTable<{ lots: string[] }, string> = {
    rowsOf: ({ lots }) => lots,
    columns: [
      { title: 'Lot', of: (lot) => lot },
      { title: 'Note', of: () => undefined },
    ],
  };
  const log = {
    title: 'Log of "lots"',
    plant: 'Demo & Sons <Plant>',
    establishment: '00000',
    fromDay: '2026-11-01',
    toDay: '2026-11-25',
    timeZone: 'America/Chicago',
    notes: ["Keep it, it's the rule."],
    items: [{ lots: ['<script>alert(1)</script>', 'B'] }, { lots: ["'C'"] }],
  };

  test('has a row for every line of an entry', () => {
    expect(logCsv(table, log)).toBe("Lot,Note\r\n<script>alert(1)</script>,\r\nB,\r\n'C',\r\n");
  });

  test('shows on its page what people wrote as they wrote it, and runs none of it', () => {
    const page = logPage(table, log);
    expect(page).toContain('<td>&lt;script&gt;alert(1)&lt;/script&gt;</td><td></td>');
    expect(page).toContain('<p class="plant">Demo &amp; Sons &lt;Plant&gt;, Est. 00000</p>');
    expect(page).toContain('<h1>Log of &quot;lots&quot;</h1>');
    expect(page).toContain('From 2026-11-01 to 2026-11-25. Times are those of the plant (America/Chicago).');
    expect(page).toContain('Keep it, it&#39;s the rule.');
    expect(page).toContain('@media print');
    expect(page).not.toMatch(/<script|style="|onclick/);
  });

  test('that is too wide stands in sections, each with what is said of all its entries in its head', () => {
    const sectioned: typeof table = {
      ...table,
      columns: [{ title: 'First', of: () => 'said once', inHead: true }, ...table.columns],
      section: ({ lots: [first = ''] }) => ({ title: `Batch <${first[0]}>`, lines: ['Cleaned & sanitized'] }),
    };
    const items = [{ lots: ['A1', 'A2'] }, { lots: ['B1'] }, { lots: ['A3'] }];
    const page = logPage(sectioned, { ...log, items });
    const [, ...sections] = page.split('<section>');
    expect(sections.map((text) => /<h2>(.*)<\/h2>/.exec(text)?.[1])).toEqual([
      'Batch &lt;A&gt;',
      'Batch &lt;B&gt;',
    ]);
    expect(sections.map((text) => text.match(/<td>[AB]\d/g))).toEqual([
      ['<td>A1', '<td>A2', '<td>A3'],
      ['<td>B1'],
    ]);
    expect(page.match(/Cleaned &amp; sanitized/g)).toHaveLength(2);
    expect(page).not.toContain('said once');
    expect(logCsv(sectioned, { ...log, items })).toContain('First,Lot,Note\r\nsaid once,A1,\r\n');
  });

  test('keeps weights and the numbers of lots and days in one piece', () => {
    const items = [
      { lots: ['12.50 lb', 'batch 261125-001 of 2026-11-25', 'fat-free', `A-1${'-1'.repeat(20)}`] },
    ];
    const page = logPage(table, { ...log, items });
    expect(page).toContain('<td class="weight">12.50 lb</td>');
    expect(page).toContain(
      '<td>batch <span class="whole">261125-001</span> of <span class="whole">2026-11-25</span></td>',
    );
    expect(page).toContain('<td>fat-free</td>');
    expect(page).toContain(`<td>A-1${'-1'.repeat(20)}</td>`);
  });

  test('says so when nothing happened', () => {
    expect(logPage(table, { ...log, items: [] })).toContain('Nothing in these days.');
  });
});
