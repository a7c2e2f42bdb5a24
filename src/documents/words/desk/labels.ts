import type { Told } from '../teller.ts';

/** What stands beside a label, and why one is refused; the words of the label itself stay as they are. */
export const LABELS: Told = [
  [
    "Allergens are those that the tables list for what was weighed in: check each supplier's label, above all of mixes and cereals, and manage what other products leave on the line.",
    'Los alérgenos son los que las tablas dan para lo que se pesó: revise la etiqueta de cada proveedor, sobre todo de mezclas y cereales, y controle lo que otros productos dejan en la línea.',
  ],
  ['{caution}: check it before the label is printed.', '{caution}: revíselo antes de imprimir la etiqueta.'],
  [
    'Servings per container depend on the pack: name it in label.packs.',
    'Las porciones por envase dependen del empaque: nómbrelo en los empaques del producto.',
  ],
  [
    'The casing is not counted: it is not weighed into the batch.',
    'La tripa no se cuenta: no se pesa en la tanda.',
  ],
  [
    'Not counted, for no table has it: {things}. The panel shows what the rest brings.',
    'Sin contar, porque ninguna tabla lo tiene: {things}. El panel muestra lo que aporta lo demás.',
  ],
  [
    'No nutrition panel, for figures that it must show are not known: {things}. Add them to the tables of the materials.',
    'Sin panel nutrimental, porque no se conocen cifras que debe mostrar: {things}. Agréguelas a las tablas de los materiales.',
  ],
  [
    'No nutrition panel: no reference amount in grams is known for this class, and without it no serving.',
    'Sin panel nutrimental: para esta clase no se conoce una cantidad de referencia en gramos, y sin ella no hay porción.',
  ],
  [
    'No nutrition panel: more weight is gone than there was water to lose.',
    'Sin panel nutrimental: se fue más peso que el agua que había por perder.',
  ],
  [
    'No nutrition panel is on this label, for none was worked out: print it on the package where the market asks for it.',
    'En esta etiqueta no hay panel nutrimental, porque no se calculó: imprímalo en el empaque donde el mercado lo pida.',
  ],
  [
    'No nutrition panel is printed, for the plant claims an exemption: "{exemption}". That it holds is for the plant to prove.',
    'No se imprime panel nutrimental, porque la planta declara una exención: "{exemption}". Que valga lo tiene que demostrar la planta.',
  ],
  [
    'The label is to claim {claims}: a nutrition claim ends the exemption from nutrition labeling.',
    'La etiqueta declara {claims}: una declaración nutrimental acaba con la exención del etiquetado nutrimental.',
  ],
  ['Drop the claim or label.nutritionExemption.', 'Quite la declaración o la exención.'],
  ['The panel is worked out from tables, not analyzed.', 'El panel se calcula con tablas, no por análisis.'],
  [
    'An analysis of six packs may find at most {most} of the calories, fat, saturated fat, cholesterol, sodium and sugars that it declares, and at least {least} of the protein, carbohydrate, fiber, vitamins and minerals ({rule}).',
    'Un análisis de seis empaques puede encontrar como máximo {most} de las calorías, grasa, grasa saturada, colesterol, sodio y azúcares que declara, y al menos {least} de la proteína, carbohidratos, fibra, vitaminas y minerales ({rule}).',
  ],
  [
    'Ground and chopped product has no relief for figures of the USDA database ({rule}); keep the records behind the figures for the inspector ({other}).',
    'El producto molido y picado no tiene tolerancia por usar cifras de la base de datos del USDA ({rule}); guarde para el inspector los registros de donde salen las cifras ({other}).',
  ],
  [
    'Rows, Daily Values and amounts of vitamins and minerals are those of 21 CFR 101.9 as amended in 2016.',
    'Los renglones, los valores diarios y las cantidades de vitaminas y minerales son los de 21 CFR 101.9 con la reforma de 2016.',
  ],
  [
    'The inspection service lets that format be used until it has one of its own ({source}); {rule} itself still prints the older set, and the first label in the new one goes to the service as a sketch ({press}).',
    'El servicio de inspección permite usar ese formato hasta que tenga uno propio ({source}); {rule} todavía imprime el anterior, y la primera etiqueta con el nuevo va al servicio como boceto ({press}).',
  ],
  [
    'Percent Daily Values are of amounts before rounding, and what lies half way between two steps goes up.',
    'Los por cientos del valor diario son de cantidades sin redondear, y lo que queda a la mitad entre dos pasos sube.',
  ],
  [
    'A firm of at most {people} people that makes at most {mass} a year of this product needs no panel as long as the label makes no nutrition claim; lean and fat percent together are allowed on ground product ({rule}).',
    'Una empresa de {people} personas como máximo que hace como máximo {mass} al año de este producto no necesita panel mientras la etiqueta no haga declaraciones nutrimentales; el por ciento de magro y de grasa juntos se permiten en producto molido ({rule}).',
  ],
  ['"{claim}" must not be printed: {why}.', '"{claim}" no se debe imprimir: {why}.'],
  ['There is no label stock "{id}".', 'No hay papel de etiqueta "{id}".'],
  ['The stocks are {ids}.', 'Los papeles son {ids}.'],
  [
    '{start}: {stock} has {count} labels to a page; start at one of them',
    '{start}: {stock} tiene {count} etiquetas por página; empiece en una de ellas',
  ],
  [
    '{start}: {stock} has one label to a page; start at one of them',
    '{start}: {stock} tiene una etiqueta por página; empiece en ella',
  ],
  [
    'The plant has no address; give the lines of its place of business in the plant\'s "address".',
    'La planta no tiene dirección; dé los renglones de su domicilio en los datos de la planta.',
  ],
  [
    'Nothing says what the pack weighs; give its net weight as net and unit.',
    'Nada dice cuánto pesa el empaque; dé su peso neto y la unidad.',
  ],
  [
    '{day} is before the day of packing, {other}; correct one of the two.',
    '{day} es antes del día de empaque, {other}; corrija uno de los dos.',
  ],
  [
    'Pack {pack} has an item number for a price in its code and no price; give its price.',
    'El empaque {pack} tiene un número de artículo para un precio en su código y no tiene precio; dé su precio.',
  ],
  [
    'Nothing says how the price stands in the code; give "priceCode" in the plant\'s "printing", as the numbering authority of the country and the shop have it.',
    'Nada dice cómo va el precio en el código; dígalo en la impresión de la planta, como lo tienen la autoridad de numeración del país y la tienda.',
  ],
  [
    'Pack {pack} declares {declared}, not {net}; leave the net weight out, or take a format without netWeight.',
    'El empaque {pack} declara {declared}, no {net}; no ponga el peso neto o tome un formato sin peso neto.',
  ],
  [
    'Hold the first label of each run against the product, its formula and its approval; the inspector and the rules of the place have the last word.',
    'Compare la primera etiqueta de cada tiraje con el producto, su fórmula y su aprobación; la última palabra la tienen el inspector y las reglas del lugar.',
  ],
  [
    'The official mark is no part of this label: it goes into the place that is left for it, in the form that the inspection service gives.',
    'La marca oficial no es parte de esta etiqueta: va en el lugar que se deja para ella, en la forma que da el servicio de inspección.',
  ],
  [
    'No date says how long the product keeps; give one where the market or the buyer asks for it.',
    'Ninguna fecha dice cuánto dura el producto; dé una donde el mercado o el comprador la pida.',
  ],
  [
    'The day of freezing must stand on the package; this label does not have it.',
    'El día de congelación debe estar en el empaque; esta etiqueta no lo tiene.',
  ],
  [
    'Each country sets the digits of numbers that carry a price: let the shop try a label before packs are sold.',
    'Cada país fija los dígitos de los números que llevan precio: deje que la tienda pruebe una etiqueta antes de vender empaques.',
  ],
  [
    '{net} is less than the smallest weight that is printed in {unit}',
    '{net} es menos que el peso más chico que se imprime en {unit}',
  ],
  [
    'The price of this pack is above {most}, the most that its code holds; make it smaller, or sell it without a price in its code (leave itemNumber out).',
    'El precio de este empaque pasa de {most}, lo más que cabe en su código; hágalo más chico o véndalo sin precio en su código.',
  ],
  [
    'Lot {lot} has {count} signs; a code holds {most}.',
    'El lote {lot} tiene {count} signos; en un código caben {most}.',
  ],
  ['Give the lot a shorter id for the label.', 'Dele al lote una clave más corta para la etiqueta.'],
  [
    'The {part} of {name} does not fit on {stock} ({size}) in type that may be printed, which is {type} high at least. {remedy}',
    'La etiqueta de {name} no cabe en {stock} ({size}) con la letra que se permite, que mide al menos {type} de alto ({part}). {remedy}',
  ],
  ['It fits on {stocks}.', 'Cabe en {stocks}.'],
  [
    'It fits on no stock here: shorten the text, or print a part of it on the package itself.',
    'No cabe en ningún papel de aquí: acorte el texto o imprima una parte en el empaque mismo.',
  ],
  [
    'In two labels: part front fits on {fronts}; part back on {backs}.',
    'En dos etiquetas: el frente cabe en {fronts}; el reverso en {backs}.',
  ],
  ['"{text}" must not be printed: {why} ({rule}).', '"{text}" no se debe imprimir: {why} ({rule}).'],

  // What the declaration itself has to say
  [
    'Sulfites come to {found} ppm as sulfur dioxide of the finished product: from {least} ppm on each sulfiting agent must stand by its name in the ingredients, those within mixes too ({rule}).',
    'Los sulfitos suman {found} ppm como dióxido de azufre del producto terminado: desde {least} ppm cada sulfitante debe estar por su nombre en los ingredientes, también los que vienen en mezclas ({rule}).',
  ],
  [
    '{name} speaks of {allergens} in its name or parts, but its table lists no {list}: check it before the label is printed.',
    '{name} habla de {allergens} en su nombre o sus partes, pero su tabla no lo incluye ({list}): revíselo antes de imprimir la etiqueta.',
  ],
  ['the batch holds {bound} fat', 'la tanda tiene {bound} de grasa'],
  ['"{text}" must not be shown: {because} ({rule}).', '"{text}" no se debe mostrar: {because} ({rule}).'],
  [
    '"{text}" stands, though {because}: as much as weighing and testing explain.',
    '"{text}" queda, aunque {because}: es lo que explican la pesada y el análisis.',
  ],
  [
    'The batch does not earn the name {name}: its PFF is {found}, unrounded below the {least} of that name ({rule}).',
    'La tanda no merece el nombre {name}: su PFF es {found}, sin redondear menos que {least} de ese nombre ({rule}).',
  ],
  ['Make it by the class of a lower grade.', 'Hágala según la clase de un grado menor.'],
  ['nothing is known of its nutrition', 'no se sabe nada de su nutrición'],
  [
    'no nutrition panel is printed, and a claim needs one',
    'no se imprime panel nutrimental, y una declaración lo necesita',
  ],
  ['the plant is not in the United States', 'la planta no está en Estados Unidos'],
  ['no meat goes in', 'no lleva carne'],
  ['the origin of {lot} is not known', 'no se conoce el origen de {lot}'],
  [
    'the batch as weighed has no panel: a figure that it must show is not known',
    'la tanda como se pesó no tiene panel: no se conoce una cifra que debe mostrar',
  ],
  [
    '{value} {unit} has more than the six digits that its code holds; give fewer decimals.',
    '{value} {unit} tiene más de los seis dígitos que caben en su código; dé menos decimales.',
  ],
  [
    'The nutrition panel of this batch has its serving from another pack ({size}), and this one asks for its own.',
    'El panel nutrimental de esta tanda toma su porción de otro empaque ({size}), y este pide la suya.',
  ],
  [
    "Make this pack the first of the product's packs before the batch is planned.",
    'Ponga este empaque como el primero del producto antes de planear la tanda.',
  ],
  ['item and price, for the till', 'artículo y precio, para la caja'],
  ['item, for the till', 'artículo, para la caja'],
  ['item, weight, dates and lot, for tracing', 'artículo, peso, fechas y lote, para rastreo'],
  ['item, dates and lot, for tracing', 'artículo, fechas y lote, para rastreo'],
  ['item, weight and dates, for the receiver', 'artículo, peso y fechas, para quien recibe'],
  ['lot, for the receiver', 'lote, para quien recibe'],
  ['keep refrigerated', 'mantener refrigerado'],
  ['keep frozen', 'mantener congelado'],
  ['Roll, {size}', 'Rollo, {size}'],
  [
    '{paper} sheet of {total}, {across} across and {down} down, {size} each',
    'Hoja {paper} de {total}, {across} a lo ancho y {down} a lo largo, {size} cada una',
  ],
  [
    '{list}: the sum of what was weighed in, by the table of each ingredient.',
    '{list}: la suma de lo que se pesó, según la tabla de cada ingrediente.',
  ],
  ['Raw, as sold', 'Crudo, como se vende'],
  ['Cooked, as sold', 'Cocido, como se vende'],
  ['Dried, as sold', 'Seco, como se vende'],
  [
    'Lot "{lot}" has signs that a code cannot hold; use letters without accents, digits, and signs such as {signs}',
    'El lote "{lot}" tiene signos que no caben en un código; use letras sin acentos, dígitos y signos como {signs}',
  ],
];
