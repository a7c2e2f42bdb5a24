import type { Told } from '../teller.ts';

/** A mix whose test is off, and a plan for what is on hand. */
export const CORRECTION: Told = [
  ['right as it is', 'correcta como está'],
  ['cannot be brought back', 'no se puede corregir'],
  [
    "Keep the mix cold while it waits: time and temperature by the plant's HACCP plan.",
    'Mantenga fría la mezcla mientras espera: tiempo y temperatura según el plan HACCP de la planta.',
  ],
  [
    'Was the sample of the whole mix, ground fine and mixed?',
    '¿La muestra era de toda la mezcla, molida fina y revuelta?',
  ],
  ['A poor sample is corrected into a poor batch.', 'Una mala muestra se corrige hacia una mala tanda.'],
  [
    'The mix is cured: never add cure a second time by hand; the cure here is reckoned on the whole.',
    'La mezcla ya lleva sal de cura: nunca agregue sal de cura otra vez a mano; aquí la sal de cura se calcula sobre el total.',
  ],
  [
    'The test is {points} points from what the lots said ({percent} %), more than lots and test explain: check the weighings and test again before anything is added.',
    'El análisis está a {points} puntos de lo que decían los lotes ({percent} %), más de lo que explican los lotes y el análisis: revise las pesadas y analice otra vez antes de agregar nada.',
  ],
  [
    'A correction is a new weighing: record lots, weights, time and who weighed, beside the batch record.',
    'Una corrección es una pesada nueva: anote lotes, pesos, hora y quién pesó, junto al registro de la tanda.',
  ],
  [
    'Mix until the addition is even, then test the fat again before the load leaves the mixer.',
    'Mezcle hasta que lo agregado quede parejo, y analice otra vez la grasa antes de que la carga salga de la mezcladora.',
  ],
  [
    'Cure is topped up for the added meat alone: a second person checks the weight, and no other cure goes in.',
    'La sal de cura se completa solo para la carne agregada: una segunda persona verifica el peso y no entra ninguna otra sal de cura.',
  ],
  ['{lot} is frozen: temper it before it goes in.', '{lot} está congelado: atempérelo antes de agregarlo.'],
  [
    'Every ingredient of the mix must be allowed and declared on the label of {name}: compare label and mix before it is packed.',
    'Cada ingrediente de la mezcla debe estar permitido y declarado en la etiqueta de {name}: compare etiqueta y mezcla antes de empacar.',
  ],
  [
    'The mix holds {allergens}: the label of {name} must say so.',
    'La mezcla contiene {allergens}: la etiqueta de {name} lo tiene que decir.',
  ],
  [
    'What is added brings {allergens}, which the mix does not hold: check label and cleaning before it goes in.',
    'Lo que se agrega trae {allergens}, que la mezcla no contiene: revise etiqueta y limpieza antes de agregarlo.',
  ],
  [
    '{name}: {mass} is only 1 division of the {scale}; weigh it on a finer scale if there is one.',
    '{name}: {mass} es solo 1 división de la báscula ({scale}); péselo en una báscula más fina si la hay.',
  ],
  [
    '{name}: {mass} is only {count} divisions of the {scale}; weigh it on a finer scale if there is one.',
    '{name}: {mass} son solo {count} divisiones de la báscula ({scale}); péselo en una báscula más fina si la hay.',
  ],
  ['{lot} weighs nothing; take the line out.', '{lot} no pesa nada; quite el renglón.'],
  ['No meat is in the mixer; give what was weighed in.', 'No hay carne en la mezcladora; dé lo que se pesó.'],
  [
    '{value}: it must be a fraction from 0 to 1, such as {example} for {meaning}.',
    '{value}: debe ser una fracción de 0 a 1, como {example} para {meaning}.',
  ],
  [
    '{value}: it must be above 0.5 and below 1, such as 0.9; leave it out to take the test as it is.',
    '{value}: debe ser mayor de 0.5 y menor de 1, como 0.9; no lo ponga para tomar el análisis como está.',
  ],
  [
    '{value} kg: a mixer holds more than nothing; give what it holds.',
    '{value} kg: en una mezcladora cabe más que nada; dé lo que cabe.',
  ],
  [
    '{value}: whatever its meat is, this mix holds from {least} to {most} % fat.',
    '{value}: sea cual sea su carne, esta mezcla tiene de {least} a {most} % de grasa.',
  ],
  ['Test again, or correct what was weighed in.', 'Analice otra vez o corrija lo que se pesó.'],
  [
    '{lot} ({name}) is in the mix, and nothing can be taken out: {product} has no place for it.',
    '{lot} ({name}) está en la mezcla y no se puede sacar nada: {product} no tiene lugar para eso.',
  ],
  [
    '{lot} ({name}) is in the mix, and nothing can be taken out: {limit}',
    '{lot} ({name}) está en la mezcla y no se puede sacar nada: {limit}',
  ],
  [
    'No amount of what may be added brings it back, in a mixer of any size.',
    'Ninguna cantidad de lo que se puede agregar la corrige, en una mezcladora de cualquier tamaño.',
  ],
  ['Another lot or another product is needed.', 'Hace falta otro lote u otro producto.'],
  [
    "Additions would bring it back on paper, but on the plant's scales no weights were found that keep every limit.",
    'En papel se corregiría agregando, pero en las básculas de la planta no se encontraron pesos que cumplan todos los límites.',
  ],
  [
    'Weigh on a finer scale, or leave a target more room.',
    'Pese en una báscula más fina o deje más margen a un objetivo.',
  ],
  [
    'What is in the mixer is more than it holds: nothing can be added.',
    'En la mezcladora hay más de lo que cabe: no se puede agregar nada.',
  ],
  [
    '{id} stays below the rate that the recipe asks of the whole.',
    '{id} queda por debajo de la dosis que la receta pide para el total.',
  ],
  [
    '{id} stays above the rate that the recipe asks of the whole.',
    '{id} queda por encima de la dosis que la receta pide para el total.',
  ],
  [
    '{limit} ({rule}) stays broken: at best {because}.',
    '{limit} ({rule}) sigue sin cumplirse: en el mejor caso {because}.',
  ],
  [
    'It takes a total of at least {mass}, before rounding to the scales; the mixer holds {capacity}.',
    'Hace falta un total de al menos {mass}, antes de redondear a las básculas; en la mezcladora caben {capacity}.',
  ],
  [
    'What is on hand is not enough: it takes {list}, or a lot like it.',
    'Lo que hay no alcanza: hacen falta {list}, o un lote parecido.',
  ],
  ['{mass} more of {lot} ({name})', '{mass} más de {lot} ({name})'],

  // A plan for what is on hand
  ['nothing to make', 'nada que hacer'],
  ['none of these products has a place for it', 'ninguno de estos productos tiene lugar para eso'],
  ['No product is named.', 'No se nombra ningún producto.'],
  [
    'Name at least one, with what a kilogram of it sells for.',
    'Nombre al menos uno, con el precio de venta de un kilogramo.',
  ],
  ['"{id}" stands twice.', '"{id}" está dos veces.'],
  ['Keep one entry for each product.', 'Deje un renglón por producto.'],
  ['{value} is no selling price.', '{value} no es un precio de venta.'],
  [
    'Give what a finished kilogram or pound sells for, above 0.',
    'Dé el precio de un kilogramo o libra terminada, mayor de 0.',
  ],
  ['{value} is no share of the margin.', '{value} no es una parte del margen.'],
  ['Write a fraction from 0 to 1, such as 0.05.', 'Escriba una fracción de 0 a 1, como 0.05.'],
  ['{value} kg is no amount to make.', '{value} kg no es una cantidad por hacer.'],
  ['Write more than 0, or leave it out.', 'Escriba más de 0 o no lo ponga.'],
  ['{value} kg is above most, {most} kg.', '{value} kg es más que el máximo, {most} kg.'],
  ['Lower least or raise most.', 'Baje el mínimo o suba el máximo.'],
  [
    '{name}: nothing on hand ends how much of it is made; say how much can be sold.',
    '{name}: nada de lo que hay pone fin a cuánto se hace; diga cuánto se puede vender.',
  ],
  [
    '{name}: {mass} are planned but cannot be weighed as planned: {because}',
    '{name}: hay {mass} planeados pero no se pueden pesar como se planearon: {because}',
  ],
  [
    'Of lot {lot} {mass} are left, to be used by {day}: sell them as they are, or give a product that takes them.',
    'Del lote {lot} quedan {mass}, por usar antes de {day}: véndalos como están o dé un producto que los lleve.',
  ],
  [
    'The lots count as costing nothing: the margin is not what the batches earn over what was paid for them.',
    'Los lotes cuentan como si no costaran nada: el margen no es lo que las tandas ganan sobre lo que se pagó por ellos.',
  ],
  [
    'What is on hand makes at most {most} finished within its limits, less than its least of {least}.',
    'Con lo que hay se hacen como máximo {most} terminados dentro de sus límites, menos que su mínimo de {least}.',
  ],
  ['Receive more, or lower the least.', 'Reciba más o baje el mínimo.'],
  [
    'A finished {unit} of it costs at least {cost} and sells at {price}.',
    'Cada {unit} terminada cuesta al menos {cost} y se vende a {price}.',
  ],
  ['Raise its price, or receive cheaper lots.', 'Suba su precio o reciba lotes más baratos.'],
  [
    'Its least of {mass} would take lots that bring more in the other products.',
    'Su mínimo de {mass} tomaría lotes que rinden más en los otros productos.',
  ],
  ['Lower the least, or receive more.', 'Baje el mínimo o reciba más.'],
  ['Its lots bring more in the other products.', 'Sus lotes rinden más en los otros productos.'],
  ['Raise its price, or receive more.', 'Suba su precio o reciba más.'],
  [
    'No more than a crumb of it can be made of what is on hand.',
    'Con lo que hay no se puede hacer más que una migaja.',
  ],
  ['Receive more.', 'Reciba más.'],
];
