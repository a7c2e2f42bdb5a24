import type { Page } from 'playwright-core';

/** Words that give English away: none of them is a Spanish word. */
const TELLTALES = [
  ...['the', 'and', 'of', 'with', 'without', 'from', 'for', 'this', 'that', 'these', 'which', 'what', 'when'],
  ...['is', 'are', 'was', 'must', 'not', 'there', 'least', 'most', 'more', 'than', 'each', 'every'],
  ...['batch', 'lot', 'load', 'weigh', 'weight', 'meat', 'trim', 'lean', 'finished', 'planned', 'packed'],
  ...['limit', 'box', 'boxes', 'day', 'price', 'cost', 'pack', 'test', 'mix', 'sheet', 'stock'],
  ...['add', 'save', 'cancel', 'close', 'search', 'reason', 'record', 'scale', 'standard', 'sausage'],
];

/** What is known to stay English within Spanish: names of laws, of foods in them, and of what a label or a log must say. */
const STAYS = [
  'Food and Drug Regulations',
  'Burger meat',
  'Breakfast sausage',
  'Product of USA',
  '"80% lean"',
  '"cleaned and sanitized"',
  'e-Handbook of Statistical Methods',
];

/**
 * Texts on the page, of names and titles of fields as well, that are English where Spanish is shown; once they have had the
 * time to be put into Spanish. What is marked as English (`lang="en"`: citations, how a rule was read, names in the books)
 * is passed over, as are terms that stand in parentheses behind their Spanish, time zones, and names that the plant gave.
 */
export async function englishOn(page: Page, names: readonly string[]): Promise<readonly string[]> {
  let found: readonly string[] = [];
  for (let tries = 0; tries < 20; tries += 1) {
    found = await englishNow(page, names);
    if (found.length === 0) break;
    await page.waitForTimeout(100);
  }
  return found;
}

function englishNow(page: Page, names: readonly string[]): Promise<string[]> {
  return page.evaluate(
    ([telltales, known]) => {
      const isEnglish = new RegExp(`(?<![\\p{L}\\d-])(${telltales.join('|')})(?![\\p{L}\\d-])`, 'iu');
      const isTimeZone = /^[A-Z]\w+\/[\w /]+$/;
      const found = new Set<string>();
      const note = (element: Element | null, text: string | null) => {
        if (!text || !element || element.closest('[lang="en"], script, style, noscript')) return;
        const rest = known.reduce((left, name) => left.replaceAll(name, ''), text).replace(/\([^)]*\)/g, '');
        if (isEnglish.test(rest) && !isTimeZone.test(rest)) found.add(text.trim());
      };
      const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      while (texts.nextNode()) note(texts.currentNode.parentElement, texts.currentNode.textContent);
      for (const name of ['aria-label', 'title', 'placeholder', 'alt']) {
        for (const element of document.querySelectorAll(`[${name}]`))
          note(element, element.getAttribute(name));
      }
      return [...found];
    },
    // Long names first: some stand within others.
    [TELLTALES, [...STAYS, ...names].toSorted((a, b) => b.length - a.length)] as const,
  );
}
