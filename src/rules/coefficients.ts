import type { Supply } from '../batch/lot.ts';
import type { Process } from '../batch/product.ts';
import { type Exact, isZero, multiply, sum, ZERO } from '../exact.ts';
import { coefficient, type Form } from './form.ts';

/**
 * Coefficients of forms over one list of supplies, each worked out once: the linear problem and the exact
 * check read the same numbers and so cannot disagree about what a limit means.
 */
export class Coefficients {
  readonly supplies: readonly Supply[];
  readonly process: Process;
  readonly #known = new Map<Form, readonly Exact[]>();

  constructor(supplies: readonly Supply[], process: Process) {
    this.supplies = supplies;
    this.process = process;
  }

  /** Kilograms of the form per kilogram of each supply, in the order of the supplies. */
  of(form: Form): readonly Exact[] {
    const known = this.#known.get(form);
    if (known) return known;
    const found = this.supplies.map((supply) => coefficient(form, supply, this.process));
    this.#known.set(form, found);
    return found;
  }

  /** Kilograms of the form in a batch of these exact weights. */
  total(form: Form, massesKg: readonly Exact[]): Exact {
    const parts = this.of(form).map((perKg, index) => {
      const massKg = massesKg[index] ?? ZERO;
      return isZero(perKg) || isZero(massKg) ? ZERO : multiply(perKg, massKg);
    });
    return sum(parts);
  }
}
