import { words } from '../words/words.ts';

/** Words of the logs. */
export const LOG = words(
  {
    loadOf: (load: number) => `load ${load}`,
    logs: {
      grinding: 'Grinding log',
      'fat-tests': 'Fat tests',
      'restricted-ingredients': 'Restricted ingredients',
      cleanings: 'Cleanings',
    },
    noLog: {
      grinding:
        'No raw beef was ground in these days. Batches of ground beef appear here once something was weighed in.',
      'fat-tests': 'No fat test in these days. Tests are written down with the lot or at the mixer.',
      'restricted-ingredients':
        'Nothing restricted was weighed in these days. Every weighing of a cure or the like appears here by itself.',
      cleanings: 'No cleaning was written down for these days. Write one down above.',
    },
    logOf: (from: string, until: string, zone: string) =>
      `${from} to ${until}; times of the plant (${zone}).`,
    writeCleaning: 'Write a cleaning down',
    equipmentExample: 'Several with commas: grinder, mixer. The grinding log needs the word grinder.',
    nowWhenEmpty: 'Empty: now',
    plantClock: "By the plant's clock",
    sealCleaning: 'Seal the cleaning',
    cleaningWritten: 'The cleaning is written down.',
    grindLot: (number: number) => `Ground lot ${number}`,
    producedFrom: 'Ground from',
    producedUntil: 'until',
    cleanedBefore: 'Cleaned before',
    cleanedAfter: 'Cleaned after',
    noCleaning: 'none written down',
    groundBefore: 'Ground before it, not cleaned between',
    sources: 'Source materials',
    madeIn: (batch: string) => `made here, batch ${batch}`,
    productionDate: 'Production date',
    carriedOverBy: 'Carried over by',
    withdrawn: 'withdrawn',
    takenBack: 'taken back',
    notAllIn: 'not all weighed in yet, or no limit counts it',
  },
  {
    loadOf: (load) => `carga ${load}`,
    logs: {
      grinding: 'Bitácora de molienda',
      'fat-tests': 'Análisis de grasa',
      'restricted-ingredients': 'Ingredientes restringidos',
      cleanings: 'Limpiezas',
    },
    noLog: {
      grinding:
        'No se molió res cruda en estos días. Las tandas de carne molida aparecen aquí cuando se pesa algo en ellas.',
      'fat-tests': 'Ningún análisis de grasa en estos días. Se anotan con el lote o en la mezcladora.',
      'restricted-ingredients':
        'No se pesó nada restringido en estos días. Cada pesada de una sal de cura o similar aparece aquí sola.',
      cleanings: 'No se anotó ninguna limpieza de estos días. Anote una arriba.',
    },
    logOf: (from, until, zone) => `Del ${from} al ${until}; horas de la planta (${zone}).`,
    writeCleaning: 'Anotar una limpieza',
    equipmentExample:
      'Varios con comas: grinder, mixer. La bitácora de molienda reconoce el molino por la palabra "grinder".',
    nowWhenEmpty: 'Vacío: ahora',
    plantClock: 'Según el reloj de la planta',
    sealCleaning: 'Sellar la limpieza',
    cleaningWritten: 'La limpieza quedó anotada.',
    grindLot: (number) => `Lote molido ${number}`,
    producedFrom: 'Molido desde',
    producedUntil: 'hasta',
    cleanedBefore: 'Limpiado antes',
    cleanedAfter: 'Limpiado después',
    noCleaning: 'ninguna anotada',
    groundBefore: 'Molido antes, sin limpiar entre ambos',
    sources: 'Materias primas de origen',
    madeIn: (batch) => `hecho aquí, tanda ${batch}`,
    productionDate: 'Fecha de producción',
    carriedOverBy: 'Arrastrado por',
    withdrawn: 'anulado',
    takenBack: 'anulada',
    notAllIn: 'todavía no se pesa todo, o ningún límite lo cuenta',
  },
);
