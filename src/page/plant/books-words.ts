import { words } from '../words/words.ts';

export const BOOKS = words(
  {
    service: 'The service',
    answers: 'It answers.',
    silent: 'It does not answer.',
    version: 'Version',
    written: 'Entries in the books',
    last: 'The last of them',
    api: 'For programs: the interface',
    contract: 'Its contract (OpenAPI)',
    take: 'Take everything along',
    takeSays:
      'Every table goes out as a spreadsheet, all of them in one workbook: lots, prices, products, batches, records.',
    toSheets: 'To the spreadsheets',
    copies: 'Copies, so that nothing is lost',
    copiesSay:
      'Make one every day, on another disk, at the machine of the service, in the folder of the program. The service goes on meanwhile. A copy is read back and compared before it counts.',
    make: 'Make a copy',
    verify: 'Look whether the books are whole',
    verifySays:
      'It prints the head of the chain. Write it down now and then, somewhere else: what was cut off at the end shows only by it.',
    restore: 'Put a copy back, into a new store',
    try: 'Try that once before you need it.',
    command: 'Command',
  },
  {
    service: 'El servicio',
    answers: 'Responde.',
    silent: 'No responde.',
    version: 'Versión',
    written: 'Entradas en los libros',
    last: 'La última',
    api: 'Para programas: la interfaz',
    contract: 'Su contrato (OpenAPI)',
    take: 'Llevarse todo',
    takeSays:
      'Cada tabla sale como hoja de cálculo, todas en un solo libro: lotes, precios, productos, tandas, registros.',
    toSheets: 'A las hojas de cálculo',
    copies: 'Copias, para que nada se pierda',
    copiesSay:
      'Haga una cada día, en otro disco, en el equipo del servicio, en la carpeta del programa. El servicio sigue mientras tanto. Una copia se lee de nuevo y se compara antes de contar.',
    make: 'Hacer una copia',
    verify: 'Ver si los libros están completos',
    verifySays:
      'Imprime la cabeza de la cadena. Anótela de vez en cuando en otro lugar: solo por ella se ve lo que se cortó al final.',
    restore: 'Recuperar una copia, en un almacén nuevo',
    try: 'Pruébelo una vez antes de necesitarlo.',
    command: 'Comando',
  },
);
