import type { Told } from '../teller.ts';

/**
 * Limits by the way they are said. What is counted stands first and the bound after a colon, so that nothing has to
 * agree with it; `things.ts` and `products.ts` have the words of the places.
 */
export const LIMITS: Told = [
  ['{what} holds at most {bound} fat.', '{what}: como máximo {bound} de grasa.'],
  [
    '{what} holds at most {bound} fat, judged on the raw mix.',
    '{what}: como máximo {bound} de grasa, medida en la mezcla cruda.',
  ],
  ['{what} holds less than {bound} salt.', '{what}: menos de {bound} de sal.'],
  [
    '{what} holds at least {bound} of {of}, its excess fat and connective tissue not counted.',
    '{what}: al menos {bound} de {of}, sin contar el exceso de grasa y de tejido conectivo.',
  ],
  [
    '{what} holds at least {bound} of {of}, gelatin not counted.',
    '{what}: al menos {bound} de {of}, sin contar la gelatina.',
  ],
  ['{what} holds at least {bound} of {of}.', '{what}: al menos {bound} de {of}.'],
  ['{what} holds {of}.', '{what}: lleva {of}.'],
  [
    '{what} weighs at most {bound} to 1 of its fresh uncured weight.',
    '{what}: pesa como máximo {bound} a 1 de su peso fresco sin curar.',
  ],
  ['{what} weighs at most {bound} of {of}.', '{what}: pesa como máximo {bound} de {of}.'],
  ...(
    [
      ['just', 'justo'],
      ['at most', 'como máximo'],
      ['at least', 'al menos'],
    ] as const
  ).map(
    ([how, como]) =>
      [
        `{what} takes ${how} {bound} of sodium nitrite, or {other} of potassium nitrite.`,
        `{what}: ${como} {bound} de nitrito de sodio, o {other} de nitrito de potasio.`,
      ] as const,
  ),
  [
    '{what} takes just {bound} of sodium ascorbate or erythorbate, weighed without water of crystallization.',
    '{what}: justo {bound} de ascorbato o eritorbato de sodio, pesado sin agua de cristalización.',
  ],
  ['{what} is at most {bound} to 1.', '{what}: como máximo {bound} a 1.'],
  [
    '{what} is less than {bound} to 1 when the sausage is ripe.',
    '{what}: menos de {bound} a 1 cuando el embutido está maduro.',
  ],
  [
    '{what}, alone or together, are at most {bound} of {of}; {other} of isolated soy protein or sodium caseinate counts as {bound2}.',
    '{what}, solos o juntos: como máximo {bound} de {of}; {other} de proteína aislada de soya o caseinato de sodio cuenta como {bound2}.',
  ],
  [
    '{what}, alone or together, are at most {bound} of {of}.',
    '{what}, solos o juntos: como máximo {bound} de {of}.',
  ],
  [
    '{what}, against nitrosamines, are at most {bound} of {of}.',
    '{what}, contra las nitrosaminas: como máximo {bound} de {of}.',
  ],
  [
    'No more {what} goes in than may be left: at most {bound} of {of}, as {as}.',
    'No entra más {what} de lo que puede quedar: como máximo {bound} de {of}, como {as}.',
  ],
  ...(['is', 'are'] as const).flatMap((is) => [
    [
      `{what} ${is} together at most {bound} of {of}.`,
      '{what}, en conjunto: como máximo {bound} de {of}.',
    ] as const,
    [
      `{what} ${is} at most {bound} of {of}, as {as}.`,
      '{what}: como máximo {bound} de {of}, como {as}.',
    ] as const,
    [`{what} ${is} at most {bound}, as {as}.`, '{what}: como máximo {bound}, como {as}.'] as const,
    [`{what} ${is} at most {bound} of {of}.`, '{what}: como máximo {bound} de {of}.'] as const,
    [`{what} ${is} at least {bound} of {of}.`, '{what}: al menos {bound} de {of}.'] as const,
    [
      `{what} ${is} at least {bound} of {of}, judged on the raw mix.`,
      '{what}: al menos {bound} de {of}, medido en la mezcla cruda.',
    ] as const,
  ]),
  ['{what} is at most {bound} ppm.', '{what}: como máximo {bound} ppm.'],
  [
    '{what} is at most {bound} of the meat; with more of it the product is a poultry product.',
    '{what}: como máximo {bound} de la carne; con más, el producto es de ave.',
  ],
  [
    '{what} is at most {bound} of the meat; with more of it the product is a meat product.',
    '{what}: como máximo {bound} de la carne; con más, el producto es de carne.',
  ],
  [
    '{what} is at most {bound} of the meat; above its natural share it is declared.',
    '{what}: como máximo {bound} de la carne; por encima de su proporción natural se declara.',
  ],
  [
    '{what} are at most {bound} of the meat, which is then reckoned by the limits of mammals.',
    '{what}: como máximo {bound} de la carne, que entonces se calcula con los límites de los mamíferos.',
  ],
  [
    '{what} replaces at most {bound} of the curing accelerators.',
    '{what}: sustituye como máximo {bound} de los aceleradores de curado.',
  ],

  // What may go in
  ['Only {kinds} goes in.', 'Solo entra {kinds}.'],
  ['Only {kinds} go in.', 'Solo entran {kinds}.'],
  ['Only {kinds} go in, and their livers.', 'Solo entran {kinds}, y sus hígados.'],
  ['Only {kinds} goes into {where}.', 'En {where} solo entra {kinds}.'],
  ['Nothing but meat goes into {where}.', 'En {where} no entra nada más que carne.'],
  ['No {what} is added.', 'No se agrega {what}.'],
  ['No {what} is added under the plain name.', 'Con el nombre simple no se agrega {what}.'],
  [
    'No {what} is added to what is 100 percent poultry.',
    'A lo que es 100 por ciento ave no se agrega {what}.',
  ],
  ['No {what} go in.', 'No entran {what}.'],
  ['No {what} go in: the standard names none.', 'No entran {what}: la norma no nombra ninguna.'],
  ['{what} do not go in.', '{what}: no entran.'],
  ['{what} do not go into {where}.', '{what}: no entran en {where}.'],
  ['No {what} goes into {where}.', 'En {where} no entra {what}.'],
  ['No {what} goes in.', 'No entra {what}.'],
  ['{what} are not listed for {where}.', '{what}: no figuran en la lista para {where}.'],
  ['{what} is not listed for {where}.', '{what}: no figura en la lista para {where}.'],
  ['{what} are not authorised in this product.', '{what}: no se autorizan en este producto.'],
  ['{what} is not authorised in this product.', '{what}: no se autoriza en este producto.'],
  [
    '{what} are authorised in listed meat preparations only.',
    '{what}: solo se autorizan en los preparados de carne de la lista.',
  ],
  ['{what} goes in only together with a curing agent.', '{what}: solo entra junto con un agente de curado.'],
  ['{what} go in only together with a curing agent.', '{what}: solo entran junto con un agente de curado.'],
  ['{what} is for {where} only.', '{what}: solo para {where}.'],
  ['{what} are for {where} only.', '{what}: solo para {where}.'],
  ['{what} go into {where} only.', '{what}: solo en {where}.'],
  [
    'The product is made of {of} and of no other part.',
    'El producto se hace de {of} y de ninguna otra parte.',
  ],
  [
    '{what} are not among the ingredients that the standard lists.',
    '{what}: no están entre los ingredientes que la norma enumera.',
  ],
  [
    '{what} is not among the ingredients that the standard lists.',
    '{what}: no está entre los ingredientes que la norma enumera.',
  ],

  // The plant's own
  [
    "House limit of {bound}, inside the law's: {limit}",
    'Límite propio de {bound}, más estricto que el de la ley: {limit}',
  ],
  ['Tried here: {bound}.', 'Aquí se prueba: {bound}.'],
  [
    'Target: {what} of the finished product is at least {bound}.',
    'Objetivo: {what} del producto terminado, al menos {bound}.',
  ],
  [
    'Target: {what} of the finished product is at most {bound}.',
    'Objetivo: {what} del producto terminado, como máximo {bound}.',
  ],
  [
    'Cost per kg of the finished product is at most {bound}.',
    'Costo por kg del producto terminado: como máximo {bound}.',
  ],
  [
    'Cost per kg of the finished product is at least {bound}.',
    'Costo por kg del producto terminado: al menos {bound}.',
  ],
  [
    'Fat behind "{percent}% lean" on the label is at most {bound}.',
    'Grasa detrás de "{percent}% lean" (magra) en la etiqueta: como máximo {bound}.',
  ],
  [
    'Share of rework in the batch is at most {bound}.',
    'Proporción de reproceso en la tanda: como máximo {bound}.',
  ],
  [
    'Share of {name} in the meat block is at least {bound}.',
    'Proporción de {name} en el bloque de carne: al menos {bound}.',
  ],
  [
    'Share of {name} in the meat block is at most {bound}.',
    'Proporción de {name} en el bloque de carne: como máximo {bound}.',
  ],
  ['{name} on {of} is at least {bound}.', '{name} sobre {of}: al menos {bound}.'],
  ['{name} on {of} is at most {bound}.', '{name} sobre {of}: como máximo {bound}.'],
  [
    'The process loses no more fat than the batch holds.',
    'El proceso no pierde más grasa de la que tiene la tanda.',
  ],
  [
    'The process loses no more water than the batch holds.',
    'El proceso no pierde más agua de la que tiene la tanda.',
  ],
];
