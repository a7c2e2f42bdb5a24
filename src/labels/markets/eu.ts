import { european } from './european.ts';

export const EU_MARKET = european('eu', '');
