import type { Told } from '../teller.ts';

/** What is wrong in products, the plant's own rules, materials, lots and days. */
export const SETUP_FIELDS: Told = [
  // How much is made
  [
    'is missing; write exactly one of {fields}, such as {example}',
    'falta; escriba exactamente uno de {fields}, como {example}',
  ],
  [
    'has no size; write exactly one of {fields}, such as {example}',
    'no tiene tamaño; escriba exactamente uno de {fields}, como {example}',
  ],
  [
    'has {given}; write exactly one of {fields}, such as {example}',
    'tiene {given}; escriba exactamente uno de {fields}, como {example}',
  ],
  [
    '{given}; write exactly one of {fields}, such as {example}',
    '{given}; escriba exactamente uno de {fields}, como {example}',
  ],
  [
    'has {count} entries; it must have at most {most}',
    'tiene {count} renglones; debe tener como máximo {most}',
  ],

  // Products
  ['must be the id of a material', 'debe ser la clave de un material'],
  ['must name a material, or leave the field out', 'debe nombrar un material, o no ponga el dato'],
  ['must name a kind, or leave the field out', 'debe nombrar un tipo, o no ponga el dato'],
  ['must name a species, or leave the field out', 'debe nombrar una especie, o no ponga el dato'],
  [
    'says not what may fill it; add materialIds, kinds or species',
    'no dice qué puede llevar; agregue materiales, tipos o especies',
  ],
  ['aims at nothing; add min or max', 'no pide nada; agregue un mínimo o un máximo'],
  [
    'is missing; write a fixed rate, or both minFraction and maxFraction',
    'falta; escriba una dosis fija, o las dos, mínima y máxima',
  ],
  [
    '{value} stands beside minFraction or maxFraction; keep the fixed rate or the two ends',
    '{value} está junto a una dosis mínima o máxima; deje la dosis fija o las dos',
  ],
  [
    '{name} is above {high} {other}; swap or correct the two',
    '{name} es mayor que {high} {other}; intercámbielos o corríjalos',
  ],
  [
    'the minFraction of its parts add up to {sum}; lower them to 1 or less together',
    'los mínimos de sus partes suman {sum}; bájelos a 1 o menos en total',
  ],
  [
    'the maxFraction of its parts add up to {sum}; raise them to 1 or more together',
    'los máximos de sus partes suman {sum}; súbalos a 1 o más en total',
  ],
  [
    '{value} is more than the whole loss that yieldFraction {yield} leaves; lower one of the two',
    '{value} es más que toda la merma que deja el rendimiento {yield}; baje uno de los dos',
  ],
  ['is missing; a patty has a weight, such as {example}', 'falta; una tortita tiene un peso, como {example}'],
  [
    '{given}: no such material; correct the id or add the material to the materials tables',
    '{given}: no hay ese material; corrija la clave o agregue el material',
  ],
  [
    '{given}: no such material; correct the id, or give the material under materials',
    '{given}: no hay ese material; corrija la clave o dé el material',
  ],
  [
    '{given} is {list}; only meat and fat belong to the meat block; make it a seasoning line',
    '{given} es {list}; en el bloque de carne solo van carne y grasa; póngalo como renglón de condimento',
  ],
  [
    '{given} is {list}; meat goes into the meat block and a casing into form.casingMaterialId',
    '{given} es {list}; la carne va en el bloque de carne y la tripa en la forma del producto',
  ],
  ['{given} is {list}; name a casing', '{given} es {list}; nombre una tripa'],
  [
    '"{division}" is not below the capacity {capacity}; write the smallest step the scale shows',
    '"{division}" no es menor que la capacidad {capacity}; escriba el paso más chico que muestra la báscula',
  ],

  // The plant's own rules
  [
    '"{id}" is no limit of any rule set; the list of rules has their ids',
    '"{id}" no es un límite de ninguna regla; la lista de reglas tiene sus claves',
  ],
  [
    '"{id}" has no bound that could be tighter; take the rule out',
    '"{id}" no tiene una cifra que pueda ser más estricta; quite la regla',
  ],
  [
    '{value} is no tighter than the {law} {unit} of the law; write a figure below it',
    '{value} no es más estricto que {law} {unit} de la ley; escriba una cifra menor',
  ],
  [
    '{value} is no tighter than the {law} {unit} of the law; write a figure above it',
    '{value} no es más estricto que {law} {unit} de la ley; escriba una cifra mayor',
  ],
  [
    '"{id}" is switched off as well; keep one of the two rules',
    '"{id}" también está desactivado; deje una de las dos reglas',
  ],
  [
    '"{id}" keeps nitrite or nitrate in bounds and cannot be switched off; choose the product class that fits',
    '"{id}" limita el nitrito o el nitrato y no se puede desactivar; elija la clase de producto que corresponda',
  ],

  ['must be a time of the plant such as {example}', 'debe ser una hora de la planta, como {example}'],
  ['must name at least one piece', 'debe nombrar al menos un equipo'],
  ['stands without supplierLot; give both', 'está sin el lote del proveedor; dé los dos'],

  // Materials and lots
  [
    '{list} add up to {sum}, more than the whole; correct one of them',
    '{list} suman {sum}, más que el total; corrija uno',
  ],
  [
    '{value} is more than {whole} {other}, of which it is a part; correct one of the two',
    '{value} es más que {whole} {other}, de lo que es una parte; corrija uno de los dos',
  ],
  [
    'a {list} must say how much it carries of {kinds}; add it, such as {example}',
    '{list}: debe decir cuánto lleva de {kinds}; agréguelo, como {example}',
  ],
  [
    '"{id}" is in the tables already; give your own material another id',
    '"{id}" ya está en las tablas; dele otra clave a su material',
  ],
  ['"{id}": {list} has no species; take the field out', '"{id}": {list} no tiene especie; quite el dato'],
  ['is missing; {list} has a species', 'falta; {list} tiene una especie'],
  [
    'are more than {value} kg together; correct count or mass',
    'son más de {value} kg en total; corrija la cantidad o el peso',
  ],
  ['add up to {sum} percent, above 100', 'suman {sum} por ciento, más de 100'],
  [
    'it must have 8, 12, 13 or 14 digits, its check digit the last',
    'debe tener 8, 12, 13 o 14 dígitos, el último el de control',
  ],
  [
    'its last digit must be {digit}, the check digit of the others; look for a mistyped digit',
    'su último dígito debe ser {digit}, el de control de los demás; busque un dígito mal escrito',
  ],
  [
    '"{given}" is no country; write its two capital letters of ISO 3166-1, such as {examples}',
    '"{given}" no es un país; escriba sus dos letras mayúsculas de ISO 3166-1, como {examples}',
  ],
  [
    'is no country; write its two capital letters of ISO 3166-1, such as {examples}',
    'no es un país; escriba sus dos letras mayúsculas de ISO 3166-1, como {examples}',
  ],
  [
    '{given} is no time that the clock showed in {zone}; correct it',
    '{given} no es una hora que haya marcado el reloj en {zone}; corríjala',
  ],
  ['{given} is not yet; it is {now}.', '{given} todavía no es; son las {now}.'],
  ['Write it down when it is done', 'Anótelo cuando esté hecho'],
  [
    '{given} is more than {count} days ago; a cleaning is written down while it is remembered',
    '{given} fue hace más de {count} días; una limpieza se anota mientras se recuerda',
  ],
  [
    '{day} is after {last}, the last day; exchange them',
    '{day} es después de {last}, el último día; intercámbielos',
  ],
  ['is after {last}, the last day; exchange them', 'es después de {last}, el último día; intercámbielos'],
  [
    'is more than {count} days before {last}; ask for a year at most',
    'es más de {count} días antes de {last}; pida un año como máximo',
  ],
  ['is empty; fill it in', 'está vacío; llénelo'],
  [
    'is not a plain number; write digits with a decimal point, such as {example}',
    'no es un número simple; escriba dígitos con punto decimal, como {example}',
  ],
  ['is not a calendar day; write it as {day}', 'no es un día del calendario; escríbalo como {day}'],
  ['is none of: {list}', 'no es ninguno de: {list}'],
];
