import type { Told } from '../teller.ts';

/** Materials, prices, products and the rules that they stand under. */
export const PLANT: Told = [
  // Materials, prices, products
  ['No material has the id "{id}"', 'Ningún material tiene la clave "{id}"'],
  ['No material has the id "{id}".', 'Ningún material tiene la clave "{id}".'],
  ['GET /v1/materials?search=… finds one.', 'Búsquelo en la lista de materiales.'],
  [
    'There is a material "{id}" already; give this one another id',
    'Ya hay un material "{id}"; dele otra clave a este',
  ],
  [
    '"{id}" is the id of a lot; give the material another id',
    '"{id}" es la clave de un lote; dele otra clave al material',
  ],
  [
    '"{id}" is not "{other}"; the id of a material stays, add another material instead',
    '"{id}" no es "{other}"; la clave de un material no cambia, agregue otro material',
  ],
  [
    '"{id}" stands in the ingredient tables, which stay as they are; add a material of your own under another id.',
    '"{id}" está en las tablas de ingredientes, que no se cambian; agregue un material propio con otra clave.',
  ],
  ['"{id}" is in use: {users}.', '"{id}" está en uso: {users}.'],
  ['Change or use up those first.', 'Cambie o acabe primero eso.'],
  ['No price is known of "{id}"', 'No se conoce el precio de "{id}"'],
  ['No product has the id "{id}".', 'Ningún producto tiene la clave "{id}".'],
  ['The products are {products}.', 'Los productos son {products}.'],
  [
    'There is a product "{id}" already; give this one another id',
    'Ya hay un producto "{id}"; dele otra clave a este',
  ],
  [
    '"{id}" is not "{other}"; the id of a product stays, add another product instead',
    '"{id}" no es "{other}"; la clave de un producto no cambia, agregue otro producto',
  ],
  [
    '"{id}" is no product of the plant; the products are {products}',
    '"{id}" no es un producto de la planta; los productos son {products}',
  ],
  [
    '"{id}" has no rules here; the jurisdictions are {ids}',
    '"{id}" no tiene reglas aquí; las jurisdicciones son {ids}',
  ],
  [
    '"{id}" is no product class of {what}; the classes are {ids}',
    '"{id}" no es una clase de producto de {what}; las clases son {ids}',
  ],
  ['There are no rules for "{id}".', 'No hay reglas para "{id}".'],
  ['The jurisdictions are {ids}.', 'Las jurisdicciones son {ids}.'],
  ['"{id}" is no product class of {what}.', '"{id}" no es una clase de producto de {what}.'],
  ['The classes are {ids}.', 'Las clases son {ids}.'],
  [
    '{day} lies before {from}, from when on the rules of {what} are known here',
    '{day} es antes de {from}, desde cuando se conocen aquí las reglas de {what}',
  ],
  ['{because}. Ask for a later day.', '{because}. Pida un día posterior.'],
  ['{because}; choose a later day', '{because}; elija un día posterior'],
  [
    '{given} is no label stock; the stocks are {ids}',
    '{given} no es un papel de etiqueta; los papeles son {ids}',
  ],
  ['The store has no plant yet.', 'Todavía no hay planta en los libros.'],
  [
    'The {list} changed since version {version}, which you read; version {now} stands now{since}. Read it again and decide anew.',
    'Esto ({list}) cambió desde la versión {version}, que usted leyó; ahora vale la versión {now}{since}. Léalo otra vez y decida de nuevo.',
  ],
  ...(
    [
      ['Lot', 'El lote'],
      ['Product', 'El producto'],
      ['Material', 'El material'],
      ['Price', 'El precio de'],
      ['Person', 'La persona'],
    ] as const
  ).map(
    ([kind, clase]) =>
      [
        `${kind} {name} changed since version {version}, which you read; version {now} stands now{since}. Read it again and decide anew.`,
        `${clase} {name} cambió desde la versión {version}, que usted leyó; ahora vale la versión {now}{since}. Léalo otra vez y decida de nuevo.`,
      ] as const,
  ),
  ['plant', 'planta'],
  ['house rules', 'reglas de la planta'],

  // A plant of one's own
  [
    'stands beside product, which has a class of its own; leave one of the two out',
    'está junto a un producto, que tiene su propia clase; deje solo uno de los dos',
  ],
  [
    'Work stands in the books ({work}), and nothing in them is ever lost.',
    'Ya hay trabajo en los libros ({work}), y nada de ellos se pierde nunca.',
  ],
  [
    'Start the service on another store and begin there: {command}',
    'Inicie el servicio con otros libros y empiece ahí: {command}',
  ],
  ['stands still for a demonstration alone; take it out', 'solo se detiene en una demostración; quítelo'],
  ['There is an admin already, who adds the others.', 'Ya hay un administrador, que agrega a los demás.'],
  ['Leave admin out.', 'No ponga administrador.'],
  [
    'is missing; whoever is to log in to the new plant first must have a name and a password',
    'falta; quien vaya a entrar primero a la planta nueva debe tener nombre y contraseña',
  ],
  ['There is no product "{id}" to keep', 'No hay producto "{id}" que guardar'],
  ['must be a product to keep, such as {example}', 'debe ser un producto que guardar, como {example}'],
  ['must hold name and password', 'debe llevar nombre y contraseña'],
  ['plant begun', 'planta empezada'],
  [
    'of the demonstration, put away when the plant was begun',
    'de la demostración, apartado al empezar la planta',
  ],
  ['The product cannot be used.', 'El producto no se puede usar.'],
];
