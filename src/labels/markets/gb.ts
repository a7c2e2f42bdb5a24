import { european } from './european.ts';

export const GB_MARKET = european('gb', 'retained ');
