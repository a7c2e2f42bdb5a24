import { words } from '../words/words.ts';

/** Words of the trace. */
export const TRACE = words(
  {
    supplierEst: "Supplier's establishment number",
    direction: 'Direction',
    forward: 'Forward: where it went',
    backward: 'Back: what it is of',
    forwardShort: 'Forward',
    backShort: 'Back',
    doTrace: 'Trace',
    noTrace:
      'A trace will be drawn here: from a lot to every batch, pack and receiver, or back to the suppliers. Name a lot or a batch above.',
    notInBooks: (what: string, id: string) => `${what} "${id}" is not in the books.`,
    lookAgain:
      "Look at the number again. For the number on the supplier's box choose Supplier's lot; lots that the plant has had are offered while you type.",
    forwardFrom: 'Forward from',
    backFrom: 'Back from',
    asOf: (time: string) => `as the books stood on ${time}`,
    whatItIsOf: 'What it was made of',
    bandsSay:
      'From left to right, on a phone from top to bottom; a band is as wide as the weight that flowed.',
    tracePicture: 'Picture of the trace',
    traceSays: (places: number, flows: number) =>
      `${places} places and ${flows} flows of weight between them`,
    startHere: 'start',
    from: 'From',
    overCounter: 'Over the counter, to whom is not known',
    share: 'Share, estimated',
    document: 'Document',
    receivers: 'Who got some of it',
    suppliers: 'Whose lots it may be made of',
    withoutLot: 'Weighed in without a lot, where the trace ends:',
    onHand: 'On hand',
    free: 'not on hold',
    mayContain: 'Lots that may contain some',
    shareSays:
      'The share is an estimate, as if everything was mixed evenly. Whatever it is, the lot may contain some; a small share clears nothing.',
    sameGrinder: 'Ground with it, the grinder not cleaned between.',
    sameGrinderSays:
      'These may hold some too, in no figure here. Trace each of them, and decide with the inspector.',
    besides: (batches: string) => `with batch ${batches}`,
  },
  {
    supplierEst: 'Número de establecimiento del proveedor',
    direction: 'Dirección',
    forward: 'Adelante: adónde fue',
    backward: 'Atrás: de qué se hizo',
    forwardShort: 'Adelante',
    backShort: 'Atrás',
    doTrace: 'Rastrear',
    noTrace:
      'Aquí se dibujará un rastreo: de un lote a cada tanda, empaque y destinatario, o de regreso a los proveedores. Indique arriba un lote o una tanda.',
    notInBooks: (what, id) => `${what} "${id}" no está en los libros.`,
    lookAgain:
      'Revise el número. Para el número de la caja del proveedor elija Lote del proveedor; mientras escribe se ofrecen los lotes que la planta ha tenido.',
    forwardFrom: 'Hacia adelante desde',
    backFrom: 'Hacia atrás desde',
    asOf: (time) => `según los libros del ${time}`,
    whatItIsOf: 'De qué se hizo',
    bandsSay:
      'De izquierda a derecha, en un teléfono de arriba abajo; una banda es tan ancha como el peso que pasó.',
    tracePicture: 'Dibujo del rastreo',
    traceSays: (places, flows) => `${places} lugares y ${flows} flujos de peso entre ellos`,
    startHere: 'inicio',
    from: 'De',
    overCounter: 'En mostrador, no se sabe a quién',
    share: 'Parte, estimada',
    document: 'Documento',
    receivers: 'Quién recibió algo',
    suppliers: 'De qué lotes puede estar hecho',
    withoutLot: 'Pesado sin lote, donde termina el rastreo:',
    onHand: 'En existencia',
    free: 'no retenido',
    mayContain: 'Lotes que pueden contener algo',
    shareSays:
      'La parte es una estimación, como si todo se hubiera mezclado por igual. Sea cual sea, el lote puede contener algo; una parte pequeña no libera nada.',
    sameGrinder: 'Molido junto, sin limpiar el molino entre ambos.',
    sameGrinderSays:
      'Estos también pueden contener algo, y no están en ninguna cifra. Rastree cada uno y decida con el inspector.',
    besides: (batches) => `con la tanda ${batches}`,
  },
);
