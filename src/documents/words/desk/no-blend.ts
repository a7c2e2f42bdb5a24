import type { Told } from '../teller.ts';

/** Why there is no blend, and what stands in the way of one. */
export const NO_BLEND: Told = [
  // Why there is no blend
  [
    'Limits and fixed lines leave so little room that no blend could be told from none.',
    'Los límites y los renglones fijos dejan tan poco margen que una mezcla no se distinguiría de ninguna.',
  ],
  ['Widen a target or change a rate a little.', 'Amplíe un objetivo o cambie un poco una dosis.'],
  [
    'What is on hand makes at most {most} ({form}) of this product within its limits; {asked} is asked.',
    'Con lo que hay se hacen como máximo {most} ({form}) de este producto dentro de sus límites; se piden {asked}.',
  ],
  [
    'Make a smaller batch or receive more (it uses up {lots}).',
    'Haga una tanda más chica o reciba más (se acaba {lots}).',
  ],
  ['Make a smaller batch or receive more.', 'Haga una tanda más chica o reciba más.'],
  [
    'The least amounts to use make at least {least} ({form}) of this product within its limits; {asked} is asked.',
    'Con las cantidades mínimas por usar salen al menos {least} ({form}) de este producto dentro de sus límites; se piden {asked}.',
  ],
  ['Make a larger batch or ask for less of a lot.', 'Haga una tanda más grande o pida menos de un lote.'],
  [
    'What is on hand does not reach {asked} ({form}) together with the fixed seasoning lines.',
    'Lo que hay no alcanza para {asked} ({form}) junto con los renglones fijos de condimento.',
  ],
  [
    'The nearest blend has {value} {unit} of {form} where {how} is asked.',
    'La mezcla más cercana tiene {value} {unit} de {form} donde se pide {how}.',
  ],
  [
    '{limit} The nearest blend has {value} {unit} of {form} where {how} is asked. {remedy}',
    '{limit} La mezcla más cercana tiene {value} {unit} de {form} donde se pide {how}. {remedy}',
  ],
  ['at most {bound}', 'como máximo {bound}'],
  ['at least {bound}', 'al menos {bound}'],
  ['more than {bound}', 'más de {bound}'],
  ['just {bound}', 'justo {bound}'],
  [
    'This is a limit of the law ({rule}): receive meat with less of it or change the recipe.',
    'Es un límite de la ley ({rule}): reciba carne con menos de eso o cambie la receta.',
  ],
  [
    'This is a limit of the law ({rule}): receive meat with more of it or change the recipe.',
    'Es un límite de la ley ({rule}): reciba carne con más de eso o cambie la receta.',
  ],
  [
    'Change this target, or receive meat with less of it.',
    'Cambie este objetivo o reciba carne con menos de eso.',
  ],
  [
    'Change this target, or receive meat with more of it.',
    'Cambie este objetivo o reciba carne con más de eso.',
  ],
  [
    'Lower the rate of {name} to about {percent} % of what it is.',
    'Baje la dosis de {name} a cerca de {percent} % de lo que es.',
  ],
  [
    '{limit} It can be kept, but not with the confidence asked of {id}: the fat of the lots is not known well enough. Ask for less confidence, test the lots, or give the target more room.',
    '{limit} Se puede cumplir, pero no con la certeza que se pide de {id}: la grasa de los lotes no se conoce bastante bien. Pida menos certeza, analice los lotes o dé más margen al objetivo.',
  ],
  [
    "On the plant's scales no weights were found that keep every limit with the confidence asked.",
    'En las básculas de la planta no se encontraron pesos que cumplan todos los límites con la certeza pedida.',
  ],
  [
    'Make a larger batch, weigh on a finer scale, or ask for a little less confidence.',
    'Haga una tanda más grande, pese en una báscula más fina o pida un poco menos de certeza.',
  ],
  [
    'Make a larger batch, weigh on a finer scale, or leave the blend more room.',
    'Haga una tanda más grande, pese en una báscula más fina o deje más margen a la mezcla.',
  ],
  [
    'Make a larger batch, weigh on a finer scale, or blend the seasoning beforehand.',
    'Haga una tanda más grande, pese en una báscula más fina o prepare antes una premezcla del condimento.',
  ],
  [
    "On the plant's scales no weights were found that keep this limit: {because}. {remedy}",
    'En las básculas de la planta no se encontraron pesos que cumplan este límite: {because}. {remedy}',
  ],
  [
    "On the plant's scales no weights were found that reach {asked} ({form}) within the limits. {remedy}",
    'En las básculas de la planta no se encontraron pesos que lleguen a {asked} ({form}) dentro de los límites. {remedy}',
  ],
  [
    'A blend exists, but none was found with {list}. {remedy}',
    'Hay una mezcla, pero no se encontró ninguna con {list}. {remedy}',
  ],
  [
    'whole boxes of {lots} and at most {count} meat lots',
    'cajas enteras de {lots} y como máximo {count} lotes de carne',
  ],
  ['whole boxes of {lots}', 'cajas enteras de {lots}'],
  ['at most 1 meat lot', 'como máximo 1 lote de carne'],
  ['at most {count} meat lots', 'como máximo {count} lotes de carne'],
  ['the least amounts asked of its lots', 'las cantidades mínimas que se piden de sus lotes'],
  [
    'Let the batch be further from its size, open a box, or allow more lots.',
    'Deje que la tanda se aparte más de su tamaño, abra una caja o permita más lotes.',
  ],
  [
    'Let the batch be a little bigger or smaller than asked, open a box, or allow more lots.',
    'Deje que la tanda sea un poco más grande o más chica de lo pedido, abra una caja o permita más lotes.',
  ],
  [
    '{name} would be {mass} in a load, below one division of the finest scale ({scale}).',
    '{name}: serían {mass} por carga, menos de una división de la báscula más fina ({scale}).',
  ],
  [
    'The batch is so small that no scale of the plant shows any of it.',
    'La tanda es tan chica que ninguna báscula de la planta la muestra.',
  ],
  ['Make a larger batch.', 'Haga una tanda más grande.'],

  // What stands in the way
  ['One thing stands in the way.', 'Una cosa lo impide.'],
  ['{count} things stand in the way.', '{count} cosas lo impiden.'],
  [
    'At least some of {lot} is asked for, but it cannot go in: {because}. Take the demand out.',
    'Se pide al menos algo de {lot}, pero no puede entrar: {because}. Quite ese pedido.',
  ],
  ['the product has no place for it', 'el producto no tiene lugar para eso'],
  [
    'No lot on hand can go into the meat block ({because}). Receive a lot that fits it.',
    'Ningún lote de los que hay puede entrar en el bloque de carne ({because}). Reciba un lote que sirva.',
  ],
  [
    'No lot on hand can go into the meat block.',
    'Ningún lote de los que hay puede entrar en el bloque de carne.',
  ],
  ['Receive a lot that fits it.', 'Reciba un lote que sirva.'],
  [
    'No usable lot for "{name}", of which the product asks at least {percent} %.',
    'No hay lote utilizable para "{name}", del que el producto pide al menos {percent} %.',
  ],
  ['Receive a lot of it or ask for less of it.', 'Reciba un lote o pida menos de eso.'],
  [
    '{id} cannot be used: {because}. Take the line out of the product.',
    '{id} no se puede usar: {because}. Quite el renglón del producto.',
  ],
  [
    '{id} has neither a usable lot nor a price ({because}). Receive a lot of it or give its price.',
    '{id} no tiene lote utilizable ni precio ({because}). Reciba un lote o dé su precio.',
  ],
  ['{id} has neither a usable lot nor a price.', '{id} no tiene lote utilizable ni precio.'],
  ['Receive a lot of it or give its price.', 'Reciba un lote o dé su precio.'],
  [
    '{limit} Add a seasoning line for {form}, with more than 0 as its least rate.',
    '{limit} Agregue un renglón de condimento para {form}, con más de 0 como dosis mínima.',
  ],
  [
    'The {list} of {id} is not known, and a limit needs it ({because}). Add the figure to its table, or leave its lots out of the batch.',
    'De {id} no se conoce este dato: {list}, y un límite lo necesita ({because}). Agregue la cifra a su tabla o deje sus lotes fuera de la tanda.',
  ],
  [
    'The batch would weigh {value} kg, beyond what a plant handles.',
    'La tanda pesaría {value} kg, más de lo que maneja una planta.',
  ],
  ['Make at most {most} kg.', 'Haga como máximo {most} kg.'],
  ['The product has no weight of one piece.', 'El producto no tiene el peso de una pieza.'],
  [
    'Give form.pieceMass in the product, or ask for a batch by weight.',
    'Dé form.pieceMass en el producto o pida una tanda por peso.',
  ],
  ['"{cooking}": {what} is sold {list}.', '"{cooking}": {what} se vende así: {list}.'],
  [
    'Choose the class that fits, or correct the process.',
    'Elija la clase que corresponda o corrija el proceso.',
  ],
  ['{value}: a {list} product loses no fat.', '{value}: un producto {list} no pierde grasa.'],
  ['Write 0.', 'Escriba 0.'],
  [
    '{value}: a raw product that is not smoked loses no weight.',
    '{value}: un producto crudo que no se ahúma no pierde peso.',
  ],
  ['Write 1.', 'Escriba 1.'],
  ['cooked', 'cocido'],
  ['smoked', 'ahumado'],
  ['dried', 'seco'],
  ['"{id}" is no limit of this product.', '"{id}" no es un límite de este producto.'],
  ['Its limits are {limits}.', 'Sus límites son {limits}.'],

  // Lots named in a request
  [
    '"{lot}" is no lot on hand; take it out of the list',
    '"{lot}" no es un lote que haya; quítelo de la lista',
  ],
  [
    '"{lot}" is no lot on hand; correct the id, or give the lot under lots',
    '"{lot}" no es un lote que haya; corrija la clave',
  ],
  [
    '"{lot}" is not kept in boxes; give its box weight or take it out of the list',
    '"{lot}" no se lleva en cajas; dé el peso de su caja o quítelo de la lista',
  ],
  [
    '"{lot}" is also in excludeLots; take it out of one of the two',
    '"{lot}" también está entre los lotes que no se usan; quítelo de uno de los dos',
  ],
  [
    '"{id}" is kept in lots; write the lotId that was weighed',
    '"{id}" se lleva en lotes; escriba el lote que se pesó',
  ],
  [
    '"{id}" is kept in lots, whose own prices count; take this price out',
    '"{id}" se lleva en lotes, cuyos precios cuentan; quite este precio',
  ],
  [
    '"{id}" has neither a lot nor a price; give its price under prices',
    '"{id}" no tiene ni lote ni precio; dé su precio',
  ],
  [
    '{mass} is more than the lot had, {had}; correct one of the two',
    '{mass} es más de lo que tenía el lote, {had}; corrija uno de los dos',
  ],
  [
    '{mass} is more than the lot holds, {held}; lower it',
    '{mass} es más de lo que tiene el lote, {held}; bájelo',
  ],
  [
    '{mass} is more than can be used of the lot; lower it',
    '{mass} es más de lo que se puede usar del lote; bájelo',
  ],
  [
    '{mass} is above max {most}; lower min or raise max',
    '{mass} es más que el máximo {most}; baje el mínimo o suba el máximo',
  ],

  // A wide one, so the last
  ['{one} is left out: {because}', '{one} no se usa: {because}'],
];
