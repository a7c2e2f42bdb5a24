import { describe, expect, it } from 'vitest';
import { inForceOn } from '../../src/rules/limit.ts';
import { notKnownOn } from '../../src/rules/standard.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { ALL_STANDARDS, standardOf } from '../helpers/materials.ts';

/** What must hold for whole classes of the markets beside the United States, where a slip would hurt someone. */

const TODAY = '2026-11-25';
const idsOn = (jurisdiction: string, productClass: string, date = TODAY) =>
  inForceOn(standardOf(productClass, jurisdiction).limits, date).map(({ id }) => id);
const classesOf = (jurisdiction: string) =>
  ALL_STANDARDS.filter(({ ruleSet }) => ruleSet.jurisdiction === jurisdiction).map(
    ({ standard }) => standard,
  );

describe('every class of every market', () => {
  it('bounds nitrite, whatever the day', () => {
    const numerators = /nitrite/i;
    const days = ['2025-10-08', '2025-10-09', TODAY];
    const open = ALL_STANDARDS.flatMap(({ ruleSet, standard }) =>
      days
        .filter((date) => notKnownOn(ruleSet, date) === undefined)
        .filter((date) => {
          const most = inForceOn(standard.limits, date).filter(
            ({ sense, numerator, id }) =>
              (sense === 'max' || sense === 'target') &&
              (numerators.test(numerator.id) || /only-meat|minced-only/.test(id)),
          );
          return most.length === 0;
        })
        .map((date) => `${ruleSet.jurisdiction} ${standard.productClass} on ${date}`),
    );
    expect(open).toEqual([]);
  });

  it('has no two versions of one limit in force on the same day, and no day between them', () => {
    for (const { ruleSet, standard } of ALL_STANDARDS) {
      const dated = standard.limits.filter(({ inForce }) => inForce !== undefined);
      const starts = dated.flatMap(({ inForce }) => inForce?.from ?? []);
      for (const { inForce, id } of dated) {
        const until = inForce?.until;
        if (until !== undefined) expect(starts, `${ruleSet.jurisdiction} ${id}`).toContain(until);
      }
    }
  });

  it('is known from a day on, and says so before it', () => {
    for (const ruleSet of RULE_SETS) {
      expect(ruleSet.knownFrom).toMatch(/^\d{4}-\d{2}-\d{2}$/);
      expect(notKnownOn(ruleSet, ruleSet.knownFrom)).toBeUndefined();
      expect(notKnownOn(ruleSet, '1900-01-01')).toContain(ruleSet.says);
    }
  });
});

describe('the United States', () => {
  // 9 CFR 319.180(a); the day of 1988 as a newspaper gives it
  it('bounds the water of frankfurters by the rule of the day', () => {
    const [before, after] = [
      idsOn('us', 'frankfurter', '1988-04-13'),
      idsOn('us', 'frankfurter', '1988-04-14'),
    ];
    const water = (ids: readonly string[]) => ids.filter((id) => id.includes('added-water'));
    expect(water(before)).toEqual(['us-319.180a-added-water-1988']);
    expect(water(after)).toEqual(['us-319.180a-fat-and-added-water']);
  });
});

describe('the European Union', () => {
  // Regulation (EU) 2023/2108
  it.each([
    ['cooked-sausage', 'eu-1333-08.3.2-nitrite'],
    ['canned-meat', 'eu-1333-08.3.2-sterilised-nitrite'],
    ['dried-sausage', 'eu-1333-08.3.1-nitrite'],
    ['cured-meat-preparation', 'eu-1333-08.2-nitrite'],
  ])('changes the count of nitrite on 9 October 2025: %s', (productClass, id) => {
    const before = idsOn('eu', productClass, '2025-10-08');
    const after = idsOn('eu', productClass, '2025-10-09');
    expect([before.includes(`${id}-2025`), before.includes(id)]).toEqual([true, false]);
    expect([after.includes(`${id}-2025`), after.includes(id)]).toEqual([false, true]);
  });

  it('shows residues as needing a laboratory and holds no limit on them', () => {
    const cured = classesOf('eu').filter(({ limits }) =>
      limits.some(({ numerator }) => numerator.id === 'nitriteIon'),
    );
    expect(cured.length).toBeGreaterThan(5);
    for (const { productClass, laboratory = [] } of cured) {
      expect(
        inForceOn(laboratory, TODAY)
          .map(({ says }) => says)
          .join(),
        productClass,
      ).toMatch(/Residual nitrite/);
    }
    for (const { limits } of classesOf('eu')) {
      expect(limits.filter(({ says }) => /residual/i.test(says))).toEqual([]);
    }
  });

  // Regulation (EU) No 1169/2011, Annex VII part B 17
  it('declares the meat of every sausage, burger and meat product, and of no mince', () => {
    for (const { productClass, meatContent } of classesOf('eu')) {
      expect(meatContent !== undefined, productClass).toBe(!productClass.includes('minced'));
    }
  });
});

describe('Great Britain', () => {
  // intl trap of two jurisdictions: Northern Ireland follows the European Union
  it('keeps nitrite as the salt after 9 October 2025 and says that Northern Ireland does not', () => {
    expect(idsOn('gb', 'cooked-sausage')).toContain('gb-1333-08.3.2-nitrite');
    expect(standardOf('cooked-sausage', 'gb').limits.map(({ numerator }) => numerator.id)).not.toContain(
      'nitriteIon',
    );
    expect(RULE_SETS.find(({ jurisdiction }) => jurisdiction === 'gb')?.says).toContain('Northern Ireland');
    expect(RULE_SETS.find(({ jurisdiction }) => jurisdiction === 'eu')?.says).toContain('Northern Ireland');
  });

  it('asks a least of meat of every reserved description', () => {
    const reserved = classesOf('gb').filter(({ citation }) => citation.includes('Schedule 1'));
    expect(reserved.length).toBeGreaterThan(12);
    for (const { productClass, limits } of reserved) {
      expect(
        limits.filter(({ sense, basis }) => sense === 'min' && basis.id === 'finished'),
        productClass,
      ).toHaveLength(1);
    }
  });

  it('has "lean" mean 7 % of fat for mince, under the national mark too', () => {
    expect(idsOn('gb', 'lean-minced-meat')).toContain('gb-1169-lean-minced-meat-fat');
    expect(standardOf('minced-beef-with-national-mark', 'gb').says).toContain('not for lean mince');
  });
});

describe('Canada', () => {
  it('has "lean" mean 17 % of fat for ground beef, by market and by name', () => {
    const lean = standardOf('lean-ground-beef', 'ca').limits.find(({ id }) => id === 'ca-ground-lean-fat');
    expect(lean?.bound).toBe(0.17);
  });

  // Food and Drug Regulations, B.14.030
  it('lets meat protein stand 1.5 points below all protein', () => {
    for (const { productClass, limits } of classesOf('ca')) {
      const of = (id: string) => limits.find(({ numerator }) => numerator.id === id)?.bound;
      const [total, meat] = [of('proteinWithoutGelatin'), of('meatProtein')];
      if (total === undefined || meat === undefined) continue;
      expect(total - meat, productClass).toBeCloseTo(0.015, 12);
    }
  });

  it('asks at least 100 and at most 200 ppm of whatever is sold as cured', () => {
    for (const { productClass, limits } of classesOf('ca')) {
      const has = (id: string) => limits.some((limit) => limit.id === id);
      expect(has('ca-cure-least'), productClass).toBe(has('ca-cure-most'));
    }
  });
});

describe('Codex Alimentarius, Australia and New Zealand', () => {
  it('show residues as needing a laboratory wherever nitrite may go in', () => {
    for (const jurisdiction of ['codex', 'anz']) {
      const cured = classesOf(jurisdiction).filter(({ limits }) =>
        limits.some(
          ({ numerator, bound, unit }) => unit === 'ppm' && bound > 0 && /nitrite/i.test(numerator.id),
        ),
      );
      expect(cured.length).toBeGreaterThan(3);
      for (const { productClass, laboratory = [] } of cured) {
        expect(laboratory.map(({ says }) => says).join(), `${jurisdiction} ${productClass}`).toMatch(
          /nitrite/i,
        );
      }
    }
  });
});
