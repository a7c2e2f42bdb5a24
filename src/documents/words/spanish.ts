import type { Told } from './teller.ts';

/**
 * What the floor reads, English to plain Spanish as it is spoken on meat floors of the United States and Mexico. A
 * batch is "tanda" and a lot "lote", so that the two are never taken for each other; a load of the mixer is "carga".
 * Places in braces are filled in; both languages have the same ones. Wording: own translation, not an official text.
 */
export const SPANISH = {
  // Titles
  'BATCH SHEET': 'HOJA DE TANDA',
  'LOTS TO PICK (whole batch)': 'LOTES POR SURTIR (toda la tanda)',
  'WEIGH INTO EACH LOAD (1 load)': 'PESAR PARA CADA CARGA (1 carga)',
  'WEIGH INTO EACH LOAD ({count} equal loads)': 'PESAR PARA CADA CARGA ({count} cargas iguales)',
  'GRIND AND MIX': 'MOLER Y MEZCLAR',
  'LIMITS, checked on the weights above': 'LÍMITES, comprobados con los pesos de arriba',
  'SWITCHED OFF BY THE HOUSE': 'LÍMITES DESACTIVADOS POR LA PLANTA',
  'NEEDS A LABORATORY TEST (not shown by the weights)':
    'NECESITA ANÁLISIS DE LABORATORIO (no se ve en los pesos)',
  'LEFT OUT': 'NO SE USA',
  // Not "seguro", which is read as safe.
  'HOW SURE, as far as the fat of the lots is known':
    'CON QUÉ CERTEZA, hasta donde se conoce la grasa de los lotes',
  'MAKE-UP': 'COMPOSICIÓN',
  COST: 'COSTO',
  'FILL IN': 'LLENAR',
  CAUTIONS: 'PRECAUCIONES',
  'FOR THE INSPECTOR AND THE FILE': 'PARA EL INSPECTOR Y EL EXPEDIENTE',
  'Limits and citations stand in English, as they were read.':
    'Los límites y las citas están en inglés, tal como se leyeron en la norma.',

  // Heads and short words
  Date: 'Fecha',
  Standard: 'Norma',
  Rules: 'Reglas',
  Batch: 'Tanda',
  Loads: 'Cargas',
  Meat: 'Carne',
  'Each load': 'Cada carga',
  'Green weight': 'Peso de carne cruda',
  'green weight': 'peso de carne cruda',
  Finished: 'Terminado',
  'Finished, expected': 'Terminado aprox.',
  expected: 'esperado',
  Pieces: 'Piezas',
  about: 'aprox.',
  Lot: 'Lote',
  Material: 'Material',
  fetch: 'surtir',
  boxes: 'cajas',
  'use by': 'caduca',
  'from Est.': 'del Est.',
  'their lot': 'lote del proveedor',
  place: 'lugar',
  weigh: 'pesar',
  on: 'en',
  asked: 'pedido',
  'What was weighed': 'Lo que se pesó',
  'What was weighed, each load': 'Lo que se pesó, cada carga',
  Plates: 'Placas',
  '{before}, then {after}': '{before}, luego {after}',
  '{size} in': '{size} pulg.',
  'Stuff into {casing}': 'Embutir en {casing}',
  'no lot kept': 'sin lote',
  'in {count} drafts': 'en {count} pesadas',
  'frozen: temper first': 'congelado: atemperar primero',
  percent: 'por ciento',
  fat: 'grasa',
  moisture: 'humedad',
  protein: 'proteína',
  'salt added': 'sal agregada',
  raw: 'crudo',
  finished: 'terminado',
  batch: 'tanda',
  'finished weight': 'peso terminado',
  'page {page} of {pages}': 'página {page} de {pages}',
  'printed in English': 'impreso en español',
  'Document {hash}': 'Documento {hash}',
  'SHA-256 of the document: {hash}': 'SHA-256 del documento: {hash}',
  'The sign □ stands for one that this paper cannot show: look at the screen.':
    'El signo □ está en lugar de uno que este papel no puede mostrar: vea la pantalla.',
  'Raw {lb} per lb, {kg} per kg': 'Crudo {lb} por lb, {kg} por kg',
  'Finished {lb} per lb, {kg} per kg': 'Terminado {lb} por lb, {kg} por kg',
  'Batch {cost}': 'Tanda {cost}',

  // To fill in
  'Batch number': 'Número de tanda',
  'Started (date, time)': 'Inicio (fecha, hora)',
  'Grinder and mixer last cleaned and sanitized (date, time)':
    'Última limpieza y sanitización del molino y la mezcladora (fecha, hora)',
  'Meat temperature before grinding': 'Temperatura de la carne antes de moler',
  'Meat temperature after mixing': 'Temperatura de la carne después de mezclar',
  'Fat test of the mix (result, method)': 'Análisis de grasa de la mezcla (resultado, método)',
  'Cooking: highest internal temperature and time held':
    'Cocción: temperatura interna más alta alcanzada y tiempo que se mantuvo',
  'Cooling: times and temperatures': 'Enfriamiento: hora y temperatura de cada medición',
  'Finished weight': 'Peso terminado',
  'Weighed by (signature)': 'Pesado por (firma)',
  'Cures and restricted ingredients checked by (signature)':
    'Sal de cura e ingredientes restringidos verificados por (firma)',
  'Reviewed by (signature, date)': 'Revisado por (firma, fecha)',

  // Allergens
  milk: 'leche',
  eggs: 'huevo',
  fish: 'pescado',
  'crustacean shellfish': 'crustáceos',
  'tree nuts': 'nueces de árbol (almendra, nuez, pistache)',
  wheat: 'trigo',
  peanuts: 'cacahuate (maní)',
  soy: 'soya',
  sesame: 'ajonjolí (sésamo)',
  rye: 'centeno',
  barley: 'cebada',
  oats: 'avena',
  celery: 'apio',
  mustard: 'mostaza',
  lupin: 'altramuz (lupino)',
  molluscs: 'moluscos',
} as const satisfies Readonly<Record<string, string>>;

export type Phrase = keyof typeof SPANISH;

/** The phrases that have no places: they stand in data as well. */
export const WHOLE_PHRASES: Told = Object.entries(SPANISH).filter(([english]) => !english.includes('{'));
