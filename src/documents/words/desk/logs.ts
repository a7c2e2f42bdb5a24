import type { Told } from '../teller.ts';

/** The logs, traces, recall drills and reports that are made of the books. */
export const LOGS: Told = [
  // Logs
  ['Grinding log, raw ground beef', 'Bitácora de molienda, carne molida de res cruda'],
  ['Fat test log', 'Bitácora de análisis de grasa'],
  ['Restricted ingredient log', 'Bitácora de ingredientes restringidos'],
  ['Cleaning log', 'Bitácora de limpieza'],
  [
    'From {from} to {to}. Times are those of the plant ({zone}).',
    'Del {from} al {to}. Las horas son las de la planta ({zone}).',
  ],
  ['Nothing in these days.', 'Nada en estos días.'],
  ['cleaned and sanitized', 'limpio y sanitizado'],
  ['not yet', 'todavía no'],
  ['nothing', 'nada'],
  ['NOT ENTERED', 'SIN ANOTAR'],
  ['NOT MET', 'NO SE CUMPLE'],
  ['not all weighed in yet, or no limit counts it', 'falta pesar, o ningún límite lo cuenta'],
  [
    'Record of 9 CFR 320.1(b)(4), fields as FSIS Directive 5000.10 lists them.',
    'Registro de 9 CFR 320.1(b)(4), con los datos que enumera la Directiva 5000.10 de FSIS.',
  ],
  [
    'Weights are not asked for; they are kept because a recall needs them.',
    'Los pesos no se piden; se guardan porque un retiro los necesita.',
  ],
  [
    'A lot runs from one clean-up to the next with the same source materials.',
    'Un lote va de una limpieza a la siguiente con los mismos materiales de origen.',
  ],
  [
    'Only cleanings of a grinder that were entered as "cleaned and sanitized" bound it.',
    'Solo lo limitan limpiezas de un molino que se anotaron como "cleaned and sanitized" (limpio y sanitizado).',
  ],
  [
    'Keep for 1 year at the place where the raw beef is ground ({rule}).',
    'Guárdelo 1 año en el lugar donde se muele la carne de res cruda ({rule}).',
  ],
  ['Local rules and the inspector come first.', 'Las reglas locales y el inspector están primero.'],
  [
    'A test of the mix says what the batch was then; a correction may follow it.',
    'Un análisis de la mezcla dice cómo estaba la tanda entonces; puede seguirle una corrección.',
  ],
  [
    'Every weighing of a material that carries a restricted substance, with how the limits on it stood once everything was weighed in.',
    'Cada pesada de un material que lleva una sustancia restringida, con el estado de sus límites cuando todo estuvo pesado.',
  ],
  [
    'Too much nitrite is poisonous: hold a batch with a limit that is not met, and ask the inspector and your process authority.',
    'Demasiado nitrito es venenoso: retenga una tanda con un límite que no se cumple y pregunte al inspector y a su autoridad de proceso.',
  ],
  [
    'What was wrong when it was written down stands in the record itself; its correction names it.',
    'Lo que estaba mal cuando se anotó sigue en el registro mismo; su corrección lo nombra.',
  ],

  // Traces and recall drills
  [
    "lot {one} (Est. {establishment}, supplier's lot {other})",
    'lote {one} (Est. {establishment}, lote del proveedor {other})',
  ],
  [
    "the supplier's lot {other} of Est. {establishment}, here {lots}",
    'el lote del proveedor {other} del Est. {establishment}, aquí {lots}',
  ],
  ['Rework of {product}, batch {one}, raw', 'Reproceso de {product}, tanda {one}, crudo'],
  ['Rework of {product}, batch {one}', 'Reproceso de {product}, tanda {one}'],
  ['Look for it in GET /v1/batches', 'Búsquela en la lista de tandas.'],
  [
    "Look for it in GET /v1/lots?onHand=any; for the supplier's own number use supplierLot",
    'Búsquelo entre todos los lotes; para el número del proveedor use el lote del proveedor.',
  ],
  [
    'No lot came under the supplier\'s number "{other}" of Est. {establishment}.',
    'No llegó ningún lote con el número de proveedor "{other}" del Est. {establishment}.',
  ],
  [
    'No lot came under the supplier\'s number "{other}".',
    'No llegó ningún lote con el número de proveedor "{other}".',
  ],
  [
    'Look for it in GET /v1/lots?onHand=any, or trace one of our own lots by lotId',
    'Búsquelo entre todos los lotes, o rastree uno de nuestros lotes.',
  ],
  ['A cleaning has no such fields.', 'Una limpieza no tiene esos datos.'],
  ['lot {one}', 'lote {one}'],
  ['batch {one}', 'tanda {one}'],
  ["supplier's lot {one}", 'lote del proveedor {one}'],
  ['rework of batch {one}', 'reproceso de la tanda {one}'],
  ['Every lot and batch here may contain some.', 'Cada lote y tanda de aquí puede contener algo.'],
  [
    'The shares are estimates, as if each batch was mixed evenly and lost of everything alike; do not release anything because its share is small.',
    'Las proporciones son estimaciones, como si cada tanda se mezclara pareja y perdiera de todo por igual; no libere nada porque su proporción sea pequeña.',
  ],
  [
    'A grinder carries over until it is cleaned and sanitized.',
    'Un molino arrastra producto hasta que se limpia y sanitiza.',
  ],
  [
    'Batches that were ground between the same two cleanings as one of these stand in a list of their own, in no weight and in no share: trace each of them by its batchId.',
    'Las tandas molidas entre las mismas dos limpiezas que una de estas están en su propia lista, en ningún peso y en ninguna proporción: rastree cada una por su número de tanda.',
  ],
  [
    'Of mixers, stuffers and other equipment nothing is known here.',
    'De mezcladoras, embutidoras y otros equipos aquí no se sabe nada.',
  ],
  ['Weights are those of the books.', 'Los pesos son los de los libros.'],
  ['What was never written down is not here.', 'Lo que nunca se anotó no está aquí.'],
  [
    'Affected is everything that was made with any of it, with the other materials in it, whatever became of it.',
    'Afectado es todo lo que se hizo con algo de eso, con los demás materiales que lleva, sea lo que sea que pasó con ello.',
  ],
  [
    'Accounted for is what the books show as on hand, in process, shipped or sold to someone known, discarded, taken as a sample, or lost in a process that has its record.',
    'Localizado es lo que los libros muestran en existencia, en proceso, embarcado o vendido a alguien conocido, desechado, tomado como muestra o perdido en un proceso que tiene su registro.',
  ],
  [
    'Not accounted for is what was sold over the counter to someone not known, and what was missing when lots were counted.',
    'Sin localizar es lo que se vendió en mostrador a alguien desconocido y lo que faltó al contar lotes.',
  ],
  [
    'What was ground between the same two cleanings of the grinder without any of it having been weighed in stands beside it, in no figure.',
    'Lo que se molió entre las mismas dos limpiezas del molino sin que se pesara nada de eso está aparte, en ninguna cifra.',
  ],
  [
    'At the finish, of what is on hand only what was found counts, and of each lot no more than the books have: what is found beyond them makes up for nothing that is missing.',
    'Al final, de lo que hay en existencia solo cuenta lo que se encontró, y de cada lote no más de lo que tienen los libros: lo que se encuentre de más no compensa nada que falte.',
  ],
  ['not looked for or not found', 'no se buscó o no se encontró'],
  [
    'Recall drill {id} is finished already; start another one.',
    'El simulacro de retiro {id} ya terminó; inicie otro.',
  ],
  ['Lot {lot} is not affected; take it out', 'El lote {lot} no está afectado; quítelo'],
  ['Lot {lot} stands twice; add its weights up', 'El lote {lot} está dos veces; sume sus pesos'],
  ['{name} stands twice; take one out', '{name} está dos veces; quite uno'],
  [
    'must be who was contacted, with a note where there is one',
    'debe ser a quién se avisó, con una nota si la hay',
  ],
  ['{name} got none of it; take it out', '{name} no recibió nada; quítelo'],

  // What batches cost
  [
    'A batch counts on the day that it is made on, once something was weighed into it.',
    'Una tanda cuenta en el día en que se hace, cuando ya se pesó algo en ella.',
  ],
  ['Planned: the blend as it was worked out.', 'Planeado: la mezcla como se calculó.'],
  [
    'Weighed: what the scales showed, at what the lots cost.',
    'Pesado: lo que mostraron las básculas, a lo que cuestan los lotes.',
  ],
  [
    'Materials only: no labor, energy or packaging.',
    'Solo materiales: sin mano de obra, energía ni empaque.',
  ],
  [
    'Finished: all that was put in and not kept as rework, divided by what came out.',
    'Terminado: todo lo que entró y no se guardó como reproceso, entre lo que salió.',
  ],
  [
    'Discarded and lost beyond the declared yield: at what went into it; the product has borne it already.',
    'Desechado y perdido más allá del rendimiento declarado: a lo que entró en ello; el producto ya lo pagó.',
  ],
  ['Below zero: less was lost than declared.', 'Menos de cero: se perdió menos de lo declarado.'],
  [
    'Lean given away: points of fat below the most that the label and the targets leave, on the expected finished weight, at the difference in price between the leanest and the fattest meat of the batch for each point (own reckoning).',
    'Magro regalado: puntos de grasa por debajo del máximo que dejan la etiqueta y los objetivos, sobre el peso terminado esperado, a la diferencia de precio entre la carne más magra y la más grasa de la tanda por cada punto (cálculo propio).',
  ],
];
