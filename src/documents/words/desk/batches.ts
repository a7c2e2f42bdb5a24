import type { Told } from '../teller.ts';

/** How a batch stands, and where it departs from its plan. */
export const BATCHES: Told = [
  // States, of the batch as a record; steps
  ['planned', 'planeada'],
  ['weighing', 'pesando'],
  ['weighed', 'pesada'],
  ['packed', 'empacada'],
  ['closed', 'cerrada'],
  ['cancelled', 'cancelada'],
  ['tested', 'analizada'],
  ['corrected', 'corregida'],
  ['set aside', 'reproceso apartado'],
  ['taken back', 'pesada anulada'],
  ['as planned', 'según el plan'],
  ['as weighed so far', 'según lo pesado hasta ahora'],
  ['as weighed', 'según lo pesado'],
  ['as finished', 'según lo terminado'],
  ['with the test', 'con el análisis'],

  ['after mixing', 'después de mezclar'],
  ['highest internal, cooking', 'interna más alta, cocción'],

  // Cautions of a batch
  [
    'NOT LAWFUL as it stands: {because}. Correct the mix before it goes on; otherwise hold it, and let the inspector and your process authority decide what becomes of it.',
    'ASÍ COMO ESTÁ, NO ES LEGAL: {because}. Corrija la mezcla antes de seguir; si no, reténgala y deje que el inspector y su autoridad de proceso decidan qué se hace con ella.',
  ],
  [
    'The label would not be true: {because}. Correct the mix, or sell it under a label that is true.',
    'La etiqueta no diría la verdad: {because}. Corrija la mezcla o véndala con una etiqueta que diga la verdad.',
  ],
  [
    'THE LABEL IS NOT AS PLANNED. {changes}. Print it anew and put none of the old ones on; look at the allergens first.',
    'LA ETIQUETA NO ES LA PLANEADA. {changes}. Imprímala de nuevo y no ponga ninguna de las anteriores; vea primero los alérgenos.',
  ],
  [
    'Less cure than planned: {because}. A product that relies on its cure is not safe with less; weigh in the rest, or ask your process authority before it goes on.',
    'Menos sal de cura que lo planeado: {because}. Un producto que depende de su sal de cura no es seguro con menos; pese lo que falta o pregunte a su autoridad de proceso antes de seguir.',
  ],
  [
    'No temperature of the cooking and cooling is noted here.',
    'Aquí no hay ninguna temperatura de la cocción ni del enfriamiento.',
  ],
  [
    'Whether they were enough is for your own records, the inspector and your process authority.',
    'Si fueron suficientes lo dicen sus propios registros, el inspector y su autoridad de proceso.',
  ],
  [
    '{form} in load {load}: {basis}, found {found}',
    '{form} en la carga {load}: {basis}, se encontró {found}',
  ],
  ['{what}: {how}, found {found}', '{what}: {how}, se encontró {found}'],
  // A line of the recipe goes by the id of its material.
  ['{one} in load {load}: {how}, found {found}', '{one} en la carga {load}: {how}, se encontró {found}'],
  ['{one}: {how}, found {found}', '{one}: {how}, se encontró {found}'],
  ['{what} in load {load}', '{what} en la carga {load}'],
  ['some of it', 'algo'],
  ['{name} in load {load}: {mass} of {fullMass}', '{name} en la carga {load}: {mass} de {fullMass}'],
  ['not lawful as finished: {because}', 'no es legal como terminó: {because}'],
  ['its label would not be true: {because}', 'su etiqueta no diría la verdad: {because}'],
  ['less cure than planned: {because}', 'menos sal de cura que lo planeado: {because}'],
  ['made with lot {lot}, which is on hold', 'hecha con el lote {lot}, que está retenido'],

  // Departures from the plan
  [
    '{count} departures need a reason in reasons: {because}',
    '{count} diferencias con el plan necesitan una razón: {because}',
  ],
  [
    'One departure needs its reason in reasons: {because}',
    'Una diferencia con el plan necesita su razón: {because}',
  ],
  ['{what}: {how}, found {found} (limitId {id})', '{what}: {how}, se encontró {found} (límite {id})'],
  ['{one}: {how}, found {found} (limitId {id})', '{one}: {how}, se encontró {found} (límite {id})'],
  [
    '{name}, line {line}, load {load}: {planned}, found {hand} (line {same}, load {again})',
    '{name}, renglón {line}, carga {load}: {planned}, se encontró {hand} (renglón {same}, carga {again})',
  ],
  ['yield: {planned}, found {hand} (about "yield")', 'rendimiento: {planned}, se encontró {hand}'],
  ['{name}, line {line}, load {load}', '{name}, renglón {line}, carga {load}'],
  ['yield', 'rendimiento'],
  ['not weighed', 'sin pesar'],
  ['from {lot}', 'de {lot}'],
  ['{mass} from {lot}', '{mass} de {lot}'],
  ['{value} %, {mass} more than was weighed in', '{value} %, {mass} más de lo que se pesó'],
];
