import { words } from '../words/words.ts';

/** Words of fat tests over time and of costs. */
export const CHART = words(
  {
    chooseTrim: "Supplier's trim",
    noTests:
      "Fat tests of each supplier's trim will be drawn here in the order of time. Write a fat test down with a lot that names its supplier.",
    lots: (count: number) => (count === 1 ? '1 lot' : `${count} lots`),
    nothingOdd: 'steady',
    nothingOddSays: 'No lot lies outside the limits, and none of the lots form a run on one side.',
    toLookAt: (count: number) => (count === 1 ? '1 lot to look at' : `${count} lots to look at`),
    lookWhy:
      'Something may have changed: ask the supplier, look at the sampling and the test. The limits are those of the lots themselves, no limit of the law.',
    chartSays: 'Each mark is one lot, the mean of its tests. Lines: see below which is which.',
    chartLabel: (lots: number, odd: number) => `${lots} lots, ${odd} of them to look at`,
    within: 'within the limits',
    warned: 'beyond 2 s',
    outside: 'outside, beyond 3 s',
    outsideShort: 'outside',
    inRun: 'one of 8 or more in a row on one side of the mean',
    lines: {
      mean: 'mean of these',
      plus2: '+2 s',
      minus2: '−2 s',
      plus3: '+3 s',
      minus3: '−3 s',
      class: 'its class',
      learned: 'next lot expected',
    },
    lineShort: {
      mean: 'mean',
      plus2: '+2 s',
      minus2: '−2 s',
      plus3: '+3 s',
      minus3: '−3 s',
      class: 'class',
      learned: 'next',
    },
    whichSpread: 'Which standard deviation is which',
    points: (text: string) => `${text} points`,
    chartSd: 's of the chart',
    chartSdSays: (range: string) =>
      `Mean moving range ${range} ÷ 1.128: how far a lot lies from the one before. 3 s is 2.66 × the mean moving range.`,
    learnedSd: 'Of the next lot',
    learnedSdSays: (weight: string) =>
      `What blends go by: how much lots differ and how little their mean is known yet. The class still counts ${weight}.`,
    classSd: 'Of the class',
    classSdSays:
      'What a lot is taken to be off by while nothing of its supplier was tested; our own judgement.',
    chartSource:
      'Individuals chart: NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.2 (quoted by others; verify). Run of 8: section 6.3.2 (from memory, verify).',
    early: (lots: number) => `Only ${lots} lots: the limits are a first guess and move with every test.`,
    noLimits: 'One lot shows no spread: limits are drawn from the second lot on.',
    shownBy: 'Shown by',
    costsBy: { day: 'Day', product: 'Product' },
    costs: {
      planned: 'Planned',
      weighed: 'Weighed',
      lost: 'Lost',
      givenAway: 'Lean given away',
    },
    costPicture: 'What it cost',
    costSays:
      'Materials only. Lost: thrown away, or lost beyond the declared yield. Given away: leaner than label and targets ask for.',
    noCosts:
      'What batches cost will be here. A batch counts on the day that it is made, once something was weighed into it.',
    finishedEach: 'Finished, each',
    materialsIn: 'Materials as weighed in',
  },
  {
    chooseTrim: 'Recorte por proveedor',
    noTests:
      'Aquí se dibujarán en orden de tiempo los análisis de grasa del recorte de cada proveedor. Anote un análisis con un lote que diga su proveedor.',
    lots: (count) => (count === 1 ? '1 lote' : `${count} lotes`),
    nothingOdd: 'estable',
    nothingOddSays: 'Ningún lote queda fuera de los límites y no hay rachas de un solo lado.',
    toLookAt: (count) => (count === 1 ? '1 lote por revisar' : `${count} lotes por revisar`),
    lookWhy:
      'Algo pudo cambiar: pregunte al proveedor, revise el muestreo y el análisis. Los límites son los de los propios lotes, no de la ley.',
    chartSays: 'Cada marca es un lote, el promedio de sus análisis. Abajo se dice qué es cada línea.',
    chartLabel: (lots, odd) => `${lots} lotes, ${odd} por revisar`,
    within: 'dentro de los límites',
    warned: 'más allá de 2 s',
    outside: 'fuera, más allá de 3 s',
    outsideShort: 'fuera',
    inRun: 'uno de 8 o más seguidos de un lado de la media',
    lines: {
      mean: 'media de estos',
      plus2: '+2 s',
      minus2: '−2 s',
      plus3: '+3 s',
      minus3: '−3 s',
      class: 'su clase',
      learned: 'próximo lote',
    },
    lineShort: {
      mean: 'media',
      plus2: '+2 s',
      minus2: '−2 s',
      plus3: '+3 s',
      minus3: '−3 s',
      class: 'clase',
      learned: 'próx.',
    },
    whichSpread: 'Qué desviación estándar es cuál',
    points: (text) => `${text} puntos`,
    chartSd: 's de la gráfica',
    chartSdSays: (range) =>
      `Rango móvil medio ${range} ÷ 1.128: cuánto se aparta un lote del anterior. 3 s es 2.66 × el rango móvil medio.`,
    learnedSd: 'Del próximo lote',
    learnedSdSays: (weight) =>
      `Con esta calculan las mezclas: cuánto difieren los lotes y qué tan poco se conoce aún su media. La clase todavía cuenta ${weight}.`,
    classSd: 'De la clase',
    classSdSays:
      'Cuánto se supone que se aparta un lote mientras no se analiza nada de su proveedor; criterio propio.',
    chartSource:
      'Gráfica de individuos: NIST/SEMATECH e-Handbook of Statistical Methods, sección 6.3.2.2 (citada por otros; verifique). Racha de 8: sección 6.3.2 (de memoria, verifique).',
    early: (lots) =>
      `Solo ${lots} lotes: los límites son una primera estimación y se mueven con cada análisis.`,
    noLimits: 'Un lote no muestra dispersión: los límites se trazan desde el segundo.',
    shownBy: 'Mostrar por',
    costsBy: { day: 'Día', product: 'Producto' },
    costs: {
      planned: 'Planeado',
      weighed: 'Pesado',
      lost: 'Perdido',
      givenAway: 'Magro regalado',
    },
    costPicture: 'Cuánto costó',
    costSays:
      'Solo materiales. Perdido: lo desechado o la merma mayor que el rendimiento declarado. Regalado: más magro de lo que piden la etiqueta y los objetivos.',
    noCosts:
      'Aquí estará lo que cuestan las tandas. Una tanda cuenta el día en que se hace, cuando ya se pesó algo en ella.',
    finishedEach: 'Terminado, por unidad',
    materialsIn: 'Materiales como se pesaron',
  },
);
