import type { Makeup } from '../formulate/blend.ts';
import type { MassUnit } from '../units.ts';
import type { Stage } from './finish.ts';

/**
 * The life of a batch: what was planned, what was really done, step by step. Steps are never changed; what stands now
 * follows from all of them in turn.
 */

/**
 * planned: lots are reserved. weighing: something is in the mixer. weighed: everything is, and the deviations have their
 * reasons. finished: what came out is known. packed: packs were made of it. closed: the record is sealed.
 */
export const BATCH_STATES = [
  'planned',
  'weighing',
  'weighed',
  'finished',
  'packed',
  'closed',
  'cancelled',
] as const;
export type BatchState = (typeof BATCH_STATES)[number];

/** A weight as it was read or is to be read on a scale. */
export interface ScaleWeight {
  /** Decimal text in the unit, with the digits of the scale. */
  readonly value: string;
  readonly unit: MassUnit;
}

/** One line to weigh into each load. */
export interface PlannedLine {
  /** 1, 2, 3, … in the order of the sheet; lines of a correction follow those of the plan. */
  readonly number: number;
  readonly supplyId: string;
  readonly materialId: string;
  readonly material: string;
  readonly lotId?: string;
  readonly perLoad: ScaleWeight;
  readonly scaleId: string;
  readonly perLoadUg: number;
  /** Loads it goes into; the first load is 1. */
  readonly loads: readonly number[];
  /** The correction that asked for it. */
  readonly ofCorrection?: number;
}

/** How one limit stands, as shown: figures in the unit of the limit. */
export interface LimitStanding {
  readonly limitId: string;
  readonly says: string;
  readonly what: string;
  readonly basis: string;
  readonly sense: string;
  readonly bound: number;
  readonly value: number;
  readonly unit: string;
  readonly holds: boolean;
  readonly authority: 'law' | 'house';
  readonly citation: string;
  /** The load that misses it, where there are several; each load goes to its buyers by itself. */
  readonly load?: number;
}

/** A departure from the plan; it needs a reason. */
export interface Deviation {
  /** What it is about: a line in a load, a limit, or the yield. */
  readonly line?: number;
  readonly load?: number;
  readonly limitId?: string;
  readonly about?: 'yield';
  readonly what: string;
  readonly planned: string;
  readonly found: string;
  readonly reason: string;
}

/** Steps as they are kept, by kind. Documents are named by their hash. */
export interface StepBodies {
  planned: {
    readonly productId: string;
    readonly date: string;
    readonly loads: number;
    readonly batchUg: number;
    readonly lines: readonly PlannedLine[];
    /** The request as it was sent. */
    readonly request: unknown;
    /** Document: product, standard, edition, house rules, plant, casing. */
    readonly basisHash: string;
    /** Document: the supplies in use, as they were known then. */
    readonly suppliesHash: string;
    readonly sheetHash: string;
    readonly labelHash: string;
    readonly cost: number;
    readonly currency: string;
  };
  weighing: {
    readonly load: number;
    readonly line: number;
    readonly materialId: string;
    readonly lotId?: string;
    readonly weight: ScaleWeight;
    readonly massUg: number;
    /** The movement of the lot. */
    readonly movement?: number;
    /** Why another lot or another weight than planned. */
    readonly reason?: string;
    /** Document: the supply, where it is none of the plan's. */
    readonly supplyHash?: string;
  };
  'taken back': { readonly step: number; readonly reason: string };
  weighed: {
    readonly weighedUg: number;
    /** Document: what the label must say of what was weighed in. */
    readonly labelHash: string;
    readonly deviations: readonly Deviation[];
    readonly limits: readonly LimitStanding[];
    readonly makeup: Makeup;
  };
  tested: {
    readonly fatFraction: number;
    readonly method: string;
    readonly sdFraction?: number;
    /** The load that was tested; the whole batch when absent. */
    readonly load?: number;
    /** Limits of the mix that was tested, with the fat that was found. */
    readonly limits: readonly LimitStanding[];
    readonly makeup: Makeup;
  };
  corrected: {
    /** The test it answers: number of its step. */
    readonly test: number;
    readonly lines: readonly PlannedLine[];
    readonly suppliesHash: string;
    readonly says: string;
  };
  finished: {
    readonly weighedUg: number;
    readonly output: { readonly lotId: string; readonly massUg: number; readonly weight: ScaleWeight };
    readonly rework: readonly {
      readonly lotId: string;
      readonly materialId: string;
      readonly stage: Stage;
      readonly massUg: number;
      readonly weight: ScaleWeight;
    }[];
    readonly discarded: readonly {
      readonly stage: Stage;
      readonly massUg: number;
      readonly weight: ScaleWeight;
      readonly reason: string;
    }[];
    /** What went in and did not come out; negative for what came out above it. */
    readonly lossUg: number;
    readonly yieldFraction: number;
    /** Of the product, with all that went in and was not kept. */
    readonly costPerKg: number;
    /** Why what came out was put on hold. */
    readonly hold?: string;
    readonly temperatures: readonly Temperature[];
    readonly deviations: readonly Deviation[];
    readonly limits: readonly LimitStanding[];
    readonly makeup: Makeup;
  };
  packed: {
    readonly packs: readonly {
      readonly lotId: string;
      readonly count: number;
      readonly net: ScaleWeight;
      readonly massUg: number;
    }[];
  };
  /** Product that goes back as rework after the batch was finished. */
  'set aside': {
    readonly rework: {
      readonly lotId: string;
      readonly materialId: string;
      readonly stage: Stage;
      readonly massUg: number;
      readonly weight: ScaleWeight;
    };
    readonly reason: string;
  };
  closed: { readonly record: number };
  cancelled: { readonly reason: string };
}
export type StepKind = keyof StepBodies;

export interface Temperature {
  /** Such as 'after mixing' or 'highest internal, cooking'. */
  readonly what: string;
  readonly value: number;
  readonly unit: 'C' | 'F';
  /** When it was read, HH:MM. */
  readonly time?: string;
}

/** A step with who took it and when. */
export type Step = {
  [Kind in StepKind]: StepOf<Kind>;
}[StepKind];

export interface StepOf<Kind extends StepKind> {
  readonly number: number;
  readonly kind: Kind;
  readonly body: StepBodies[Kind];
  readonly at: string;
  readonly day: string;
  /** Name of who took it. */
  readonly person: string;
}

/** The state after each kind of step; one that is not named here leaves the state as it is. */
const STATE_AFTER: Readonly<Partial<Record<StepKind, BatchState>>> = {
  planned: 'planned',
  weighing: 'weighing',
  weighed: 'weighed',
  corrected: 'weighing',
  finished: 'finished',
  packed: 'packed',
  closed: 'closed',
  cancelled: 'cancelled',
};

/** States in which a step of each kind may be taken. */
const TAKEN_IN: Readonly<Record<StepKind, readonly BatchState[]>> = {
  planned: [],
  weighing: ['planned', 'weighing'],
  'taken back': ['weighing', 'weighed'],
  weighed: ['weighing'],
  // A load that is all in may be tested and corrected while the next one is weighed.
  tested: ['weighing', 'weighed'],
  corrected: ['weighing', 'weighed'],
  finished: ['weighed'],
  packed: ['finished', 'packed'],
  'set aside': ['finished', 'packed'],
  closed: ['finished', 'packed'],
  // As long as nothing is in the mixer.
  cancelled: ['planned', 'weighing'],
};

export function stateAfter(state: BatchState, kind: StepKind): BatchState {
  // What is taken back must be weighed again.
  if (kind === 'taken back') return 'weighing';
  return STATE_AFTER[kind] ?? state;
}

/** Whether a step may be taken now. */
export function mayTake(kind: StepKind, state: BatchState): boolean {
  return TAKEN_IN[kind].includes(state);
}

/** States in which it may be taken, for a message. */
export function takenIn(kind: StepKind): readonly BatchState[] {
  return TAKEN_IN[kind];
}

/** Steps of one kind, in turn. */
export function stepsOf<Kind extends StepKind>(steps: readonly Step[], kind: Kind): StepOf<Kind>[] {
  return steps.filter((step) => step.kind === kind) as unknown as StepOf<Kind>[];
}

/** Departures that have their reasons already. */
export function settledBefore(steps: readonly Step[]): Deviation[] {
  return [...stepsOf(steps, 'weighed'), ...stepsOf(steps, 'finished')].flatMap(({ body }) => body.deviations);
}

/** The label that counts: as weighed, or as planned while nothing is settled. */
export function labelHashOf(steps: readonly Step[]): string | undefined {
  return (stepsOf(steps, 'weighed').at(-1) ?? stepsOf(steps, 'planned')[0])?.body.labelHash;
}
