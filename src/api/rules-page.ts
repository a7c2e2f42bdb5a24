import { Router } from 'express';
import { RULES_PAGE_STYLE, rulesPage } from '../documents/rules-page.ts';
import type { Desk } from './blending.ts';
import { rulesQuery } from './contract/resources.ts';
import { parseOrProblem } from './parse.ts';
import { listRules } from './rules.ts';

/** Every limit of a market on a day, for reading in a browser. */
export function rulesPages(deskNow: () => Promise<Desk>): Router {
  const router = Router();
  router.use((_request, response, next) => {
    response.set(
      'Content-Security-Policy',
      "default-src 'none'; style-src 'self'; img-src data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    );
    next();
  });
  router.get('/', async ({ query }, response) => {
    const desk = await deskNow();
    const { productClass: wanted, product: _, ...where } = parseOrProblem(rulesQuery, withoutEmpty(query));
    const all = listRules(desk, where);
    // Whoever changes the market keeps the class where the other market has one of that name.
    const productClass = all.standards.find((standard) => standard.productClass === wanted)?.productClass;
    const page = rulesPage({
      list: productClass === undefined ? all : listRules(desk, { ...where, productClass }),
      places: desk.ruleSets,
      classes: all.standards,
      ...(productClass !== undefined && { productClass }),
    });
    response.type('html').send(page);
  });
  router.get('/page.css', (_request, response) => {
    response.type('text/css').send(RULES_PAGE_STYLE);
  });
  return router;
}

/** A form sends what was not chosen as an empty text. */
function withoutEmpty(query: object): object {
  return Object.fromEntries(Object.entries(query).filter(([, value]) => value !== ''));
}
