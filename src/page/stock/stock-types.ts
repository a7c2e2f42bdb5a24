import type { z } from 'zod';
import type { bookedAnswer, shipmentAnswer } from '../../api/contract/movements.ts';
import type { priceAnswer } from '../../api/contract/prices.ts';
import type { trimAnswer } from '../../api/contract/resources.ts';

/** Answers of the service, as this section reads them. */
export type { FatTestAnswer } from '../../api/contract/fat-tests.ts';
export type { LotAnswer, WholeLotAnswer } from '../../api/contract/lots.ts';
export type { MovementAnswer } from '../../api/contract/movements.ts';
export type { MaterialAnswer } from '../../api/contract/resources.ts';
export type { ImportAnswer } from '../../api/exchange/contract.ts';
export type TrimItem = z.output<typeof trimAnswer>['items'][number];
export type BookedAnswer = z.output<typeof bookedAnswer>;
export type ShipmentAnswer = z.output<typeof shipmentAnswer>;
export type PriceAnswer = z.output<typeof priceAnswer>;
