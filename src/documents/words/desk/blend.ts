import type { Told } from '../teller.ts';

/** What fights, the ways out, and how good a blend is proven to be. */
export const BLEND: Told = [
  // What fights
  ['The rate of {id}.', 'La dosis de {id}.'],
  ['The size of the batch: {mass} ({form}).', 'El tamaño de la tanda: {mass} ({form}).'],
  ['{lot}: at most {bound}.', '{lot}: como máximo {bound}.'],
  ['{lot}: at least {bound}.', '{lot}: al menos {bound}.'],

  // Ways out
  ['Any one of these leads to a blend: {remedy}', 'Cualquiera de estos cambios lleva a una mezcla: {remedy}'],
  ['Raise "{form}" from {from} to {to} % of {basis}.', 'Suba "{form}" de {from} a {to} % de {basis}.'],
  ['Lower "{form}" from {from} to {to} % of {basis}.', 'Baje "{form}" de {from} a {to} % de {basis}.'],
  ['Raise "{form}" from {from} to {to} ppm of {basis}.', 'Suba "{form}" de {from} a {to} ppm de {basis}.'],
  ['Lower "{form}" from {from} to {to} ppm of {basis}.', 'Baje "{form}" de {from} a {to} ppm de {basis}.'],
  ['Raise "{form}" from {from} to {to} to 1 of {basis}.', 'Suba "{form}" de {from} a {to} a 1 de {basis}.'],
  ['Lower "{form}" from {from} to {to} to 1 of {basis}.', 'Baje "{form}" de {from} a {to} a 1 de {basis}.'],
  [
    'Raise "{form}" from {from} to {to} price per kg of {basis}.',
    'Suba "{form}" de {from} a {to} (precio por kg) de {basis}.',
  ],
  [
    'Lower "{form}" from {from} to {to} price per kg of {basis}.',
    'Baje "{form}" de {from} a {to} (precio por kg) de {basis}.',
  ],
  [
    'Lower the rate of {id} from {from} to {to} % of {basis}.',
    'Baje la dosis de {id} de {from} a {to} % de {basis}.',
  ],
  [
    'Ask for {to} % confidence in {id} in place of {from} %.',
    'Pida {to} % de certeza en {id} en lugar de {from} %.',
  ],
  ['Do not ask for a least amount of {lots}.', 'No pida una cantidad mínima de {lots}.'],
  ['Open a box: do not ask for whole boxes.', 'Abra una caja: no pida cajas enteras.'],
  ['Do not ask for so few meat lots.', 'No pida tan pocos lotes de carne.'],
  ['Do not ask for the fewest lots.', 'No pida el menor número de lotes.'],
  ['Do not ask for older lots first.', 'No pida primero los lotes más viejos.'],
  ['Keep the batch to its size.', 'Mantenga la tanda en su tamaño.'],
  ['Allow {count} meat lots.', 'Permita {count} lotes de carne.'],
  [
    'Let the batch be up to {percent} % bigger or smaller: it comes to {mass}.',
    'Deje que la tanda sea hasta {percent} % más grande o más chica: queda en {mass}.',
  ],
  ['Make {to} in place of {from} ({form}).', 'Haga {to} en lugar de {from} ({form}).'],
  [
    'Buy {mass} of {name} (its price is not known here).',
    'Compre {mass} de {name} (aquí no se conoce su precio).',
  ],
  ['Buy {mass} of {name} (at {price} per {per}).', 'Compre {mass} de {name} (a {price} por {per}).'],

  // How good it is
  [
    'Proven: no blend {list} costs less than {cost}, and this one {more} more.',
    'Comprobado: ninguna mezcla {list} cuesta menos de {cost}, y esta cuesta {more} más.',
  ],
  [
    'Proven within {percent} %: no blend {list}, within these limits and lots, costs less than {cost}.',
    'Comprobado con un margen de {percent} %: ninguna mezcla {list}, dentro de estos límites y lotes, cuesta menos de {cost}.',
  ],
  ['Being as sure as asked costs {cost} of it.', 'Tener la certeza pedida cuesta {cost} de eso.'],
  ['Using older lots first costs {cost} of it.', 'Usar primero los lotes más viejos cuesta {cost} de eso.'],
  [
    'Lots were chosen as the floor asked; the engine reports that no such choice costs less than {cost} before rounding.',
    'Los lotes se eligieron como lo pidió el piso; el motor informa que ninguna elección así cuesta menos de {cost} antes de redondear.',
  ],
  ['of this weight', 'de este peso'],
  ['of this weight and with its seasoning as weighed', 'de este peso y con su condimento como se pesa'],
  ['with this much meat', 'con esta cantidad de carne'],
  [
    'with this much meat and with its seasoning as weighed',
    'con esta cantidad de carne y con su condimento como se pesa',
  ],
  ['of this finished weight', 'de este peso terminado'],
  [
    'of this finished weight and with its seasoning as weighed',
    'de este peso terminado y con su condimento como se pesa',
  ],
  [
    '{limit} Holds with a probability of {percent} %, {asked} % was asked (sd {sd} {unit}).',
    '{limit} Se cumple con una probabilidad de {percent} %, se pidió {asked} % (desv. est. {sd} {unit}).',
  ],
  [
    '{limit} Holds with a probability of {percent} % (sd {sd} {unit}).',
    '{limit} Se cumple con una probabilidad de {percent} % (desv. est. {sd} {unit}).',
  ],
  ['points', 'puntos'],
  ['{what} must be there', '{what}: tiene que haber'],
  ['{what} {value} {unit} of {of}, {how}', '{what}: {value} {unit} de {of}, {how}'],

  // A curve
  [
    'a curve is of the cheapest blend, without wishes of the floor; take the field out',
    'una curva es de la mezcla más barata, sin deseos del piso; quite el dato',
  ],
  [
    'The product has no fat target and no lean percent on its label.',
    'El producto no tiene objetivo de grasa ni por ciento de magro en la etiqueta.',
  ],
  ['Give it one of the two.', 'Dele uno de los dos.'],
  [
    '"{id}" is no maximum or minimum of this product.',
    '"{id}" no es un máximo ni un mínimo de este producto.',
  ],
  ['Choose one of {limits}.', 'Elija uno de {limits}.'],
  [
    '"{id}" counts nothing that may go into this batch: the cost does not move with it.',
    '"{id}" no cuenta nada que pueda entrar en esta tanda: el costo no cambia con él.',
  ],
  ['"{id}" cannot go into this batch.', '"{id}" no puede entrar en esta tanda.'],
  ['Choose one of {lots}.', 'Elija uno de {lots}.'],
  [
    'Nowhere between these two ends is there a blend that keeps all other limits.',
    'En ningún punto entre estos dos extremos hay una mezcla que cumpla todos los demás límites.',
  ],
];
