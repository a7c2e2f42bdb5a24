import type { Told } from '../teller.ts';

/** Lots, what moves them and what is known of their fat. */
export const STOCK: Told = [
  // States and kinds of lots and movements
  ['chilled', 'refrigerado'],
  ['frozen', 'congelado'],
  ['dry', 'seco'],
  ['unknown', 'no se sabe'],
  ['received', 'recibido'],
  ['adjusted', 'ajustado'],
  ['reserved', 'prometido'],
  ['released', 'liberado'],
  ['produced', 'producido'],
  ['sold', 'vendido'],
  ['shipped', 'embarcado'],
  ['discarded', 'desechado'],
  ['no reason given', 'sin razón anotada'],
  ['bulk', 'granel'],
  ['pack', 'empaque'],
  ['packs', 'empaques'],
  ['bought', 'comprado'],

  // Lots
  [
    'There is a lot "{lot}" already; give this one another id',
    'Ya hay un lote "{lot}"; dele otra clave a este',
  ],
  ['There is no lot "{lot}"; correct the id', 'No hay ningún lote "{lot}"; corrija la clave'],
  ['There is no lot "{lot}".', 'No hay ningún lote "{lot}".'],
  ['There is no lot "{lot}"', 'No hay ningún lote "{lot}"'],
  [
    'Lot {lot} was changed since you read it (version {version}, now {now}).',
    'El lote {lot} cambió desde que usted lo leyó (versión {version}, ahora {now}).',
  ],
  ['Read it again and decide anew.', 'Léalo otra vez y decida de nuevo.'],
  ['Lot {lot} is on hold.', 'El lote {lot} está retenido.'],
  ['Release it first, or take another lot.', 'Libérelo primero o tome otro lote.'],
  [
    'Lot {lot} is on hold: {because}. Release it first, or take another lot.',
    'El lote {lot} está retenido: {because}. Libérelo primero o tome otro lote.',
  ],
  [
    'Lot {lot} is on hold already: {because}. Release it first.',
    'El lote {lot} ya está retenido: {because}. Libérelo primero.',
  ],
  [
    'Lot {lot} is not on hold; there is nothing to release.',
    'El lote {lot} no está retenido; no hay nada que liberar.',
  ],
  [
    'Lot {lot} is on hold ({reason}): label it, but do not let it go.',
    'El lote {lot} está retenido ({reason}): etiquételo, pero no deje que salga.',
  ],
  ['Lot {lot} is past its use-by date {day}.', 'El lote {lot} ya pasó su fecha de caducidad {day}.'],
  ['Take another lot.', 'Tome otro lote.'],
  [
    'Lot {lot} would be more than the {most} that can be counted.',
    'El lote {lot} sería más que {most}, lo más que se puede contar.',
  ],
  ['Correct the weight.', 'Corrija el peso.'],
  [
    '{value} kg is more than the ledger can count; write a smaller weight',
    '{value} kg es más de lo que se puede contar; escriba un peso menor',
  ],
  [
    'Lot {lot} has {mass} on hand, {promised} of it promised to batches and {free} free; {asked} is asked.',
    'Del lote {lot} hay {mass}, de eso {promised} prometidos a tandas y {free} libres; se piden {asked}.',
  ],
  ['Take less, or count the lot and adjust it.', 'Tome menos, o cuente el lote y ajústelo.'],
  ['Lot {lot} has {mass} on hand; {asked} is asked.', 'Del lote {lot} hay {mass}; se piden {asked}.'],
  [
    'Lot {lot} has {mass} on hand, {promised} of it promised to batch {batches}; {because}. Take less, {remedy}.',
    'Del lote {lot} hay {mass}, de eso {promised} prometidos a la tanda {batches}; {because}. Tome menos, {remedy}.',
  ],
  [
    'Lot {lot} has {mass} on hand; {because}. Take less, {remedy}.',
    'Del lote {lot} hay {mass}; {because}. Tome menos, {remedy}.',
  ],
  ['nothing of it is free', 'nada está libre'],
  ['{asked} is asked, {free} is free', 'se piden {asked}, están libres {free}'],
  ['{count} packs are asked, {left} are free', 'se piden {count} empaques, están libres {left}'],
  ['or count the lot and adjust it', 'o cuente el lote y ajústelo'],
  ['or {remedy}, or {because}', 'o {remedy}, o {because}'],
  ['or {remedy}', 'o {remedy}'],
  ['cancel batch {batch}, not begun yet', 'cancele la tanda {batch}, que no ha empezado'],
  [
    'go on with batch {batch}: what it leaves is free once all is weighed in',
    'siga con la tanda {batch}: lo que sobre queda libre cuando todo esté pesado',
  ],
  [
    'Batch {batch} is promised {promised} of lot {lot}; {asked} is asked of that.',
    'La tanda {batch} tiene prometidos {promised} del lote {lot}; de eso se piden {asked}.',
  ],
  [
    'lot {lot} has {mass} on hand already; there is nothing to adjust',
    'del lote {lot} ya hay {mass}; no hay nada que ajustar',
  ],
  [
    '{promised} of lot {lot} is promised to batch {batches}, more than the {mass} counted.',
    'Del lote {lot} hay {promised} prometidos a la tanda {batches}, más que los {mass} contados.',
  ],
  ['Count again, {remedy}.', 'Cuente otra vez, {remedy}.'],
  ['Lot {lot} is not kept in packs; give its mass', 'El lote {lot} no se lleva en empaques; dé su peso'],
  [
    'Lot {lot} is no packs; name a lot of packs, such as {example}',
    'El lote {lot} no es de empaques; nombre un lote de empaques, como {example}',
  ],
  [
    'The packs of lot {lot} all declare {net}; leave net out',
    'Los empaques del lote {lot} declaran todos {net}; no ponga el peso neto',
  ],
  [
    '"{lot}" is the id of a material; give the lot another id',
    '"{lot}" es la clave de un material; dele otra clave al lote',
  ],
  [
    '"{id}": no such material; correct the id, or add the material first (POST /v1/materials)',
    '"{id}": no hay ese material; corrija la clave o agregue primero el material',
  ],
  [
    'lot {lot} was made here, not bought; take the field out',
    'el lote {lot} se hizo aquí, no se compró; quite el dato',
  ],
  [
    'Only {list} may change what a lot costs; take cost out or ask one.',
    'Solo {list} puede cambiar lo que cuesta un lote; quite el costo o pídaselo.',
  ],
  [
    'Only {list} may put all lots on hold at once; take hold out or ask one.',
    'Solo {list} puede retener todos los lotes a la vez; quite la retención o pídaselo.',
  ],
  ['{day} is after today, {today}; correct it', '{day} es después de hoy, {today}; corríjala'],
  [
    '{day} is after receivedDate {other}; correct one of the two',
    '{day} es después de la fecha de recibo {other}; corrija una de las dos',
  ],
  [
    '{day} is before receivedDate {other}; correct one of the two',
    '{day} es antes de la fecha de recibo {other}; corrija una de las dos',
  ],
  [
    '{day} is before packedDate {other}; correct one of the two',
    '{day} es antes de la fecha de empaque {other}; corrija una de las dos',
  ],
  [
    '{day} is before the day of the batch, {other}; leave this lot out',
    '{day} es antes del día de la tanda, {other}; no use este lote',
  ],
  [
    '{day} is after the day of the batch, {other}; leave this lot out',
    '{day} es después del día de la tanda, {other}; no use este lote',
  ],

  // Movements
  [
    'Movement {seq} takes back movement {other} itself; book anew what is right.',
    'El movimiento {seq} ya anula el movimiento {other}; registre de nuevo lo correcto.',
  ],
  [
    'Movement {seq} takes {other} back; book what is right anew.',
    'El movimiento {seq} anula el {other}; registre de nuevo lo correcto.',
  ],
  [
    'Movement {seq} is taken back already, by movement {other}.',
    'El movimiento {seq} ya fue anulado, por el movimiento {other}.',
  ],
  [
    'Movement {seq} was taken back already, by movement {other}.',
    'El movimiento {seq} ya fue anulado, por el movimiento {other}.',
  ],
  [
    'Movement {seq} was {list} by batch {batch}; only what was {hand} by hand is taken back here.',
    'El movimiento {seq} fue "{list}" por la tanda {batch}; aquí solo se anula lo registrado a mano ({hand}).',
  ],
  [
    'Movement {seq} was {list}; only what was {hand} by hand is taken back here.',
    'El movimiento {seq} fue "{list}"; aquí solo se anula lo registrado a mano ({hand}).',
  ],
  ['There is no movement "{seq}"', 'No hay ningún movimiento "{seq}"'],
  ['There is no movement {seq} to take back', 'No hay ningún movimiento {seq} que anular'],

  // Fat tests
  [
    'Lot {lot} is {list} of a batch; test the batch while it is mixed.',
    'El lote {lot} es {list} de una tanda; analice la tanda mientras se mezcla.',
  ],
  [
    'Lot {lot} is {list}; only the fat of meat is tested here.',
    'El lote {lot} es {list}; aquí solo se analiza la grasa de carne.',
  ],
  ['The material of lot {lot}, "{id}", was withdrawn.', 'El material del lote {lot}, "{id}", fue retirado.'],
  [
    'The material of lot {lot}, "{id}", was withdrawn; add it again first.',
    'El material del lote {lot}, "{id}", fue retirado; agréguelo otra vez primero.',
  ],
  [
    '{day} is not from {from}, when the lot came, to today, {today}; correct it',
    '{day} no está entre {from}, cuando llegó el lote, y hoy, {today}; corríjala',
  ],
  ['There is no test {seq}', 'No hay ningún análisis {seq}'],
  [
    'Test {seq} was withdrawn already; nothing is left to do.',
    'El análisis {seq} ya fue retirado; no queda nada por hacer.',
  ],
  ['supplier certificate', 'certificado del proveedor'],
  ['solvent extraction', 'extracción con solvente'],
  ['the figure of this lot by {list}', 'la cifra de este lote por {list}'],
  ['the figure of its class, not a test', 'la cifra de su clase, no un análisis'],
];
