import type { Told } from '../teller.ts';

/** What is refused at the steps of a batch. */
export const BATCH_STEPS: Told = [
  // Planning
  [
    'Other batches took of the same lots each time this one was worked out.',
    'Cada vez que se calculó esta tanda, otras tomaron de los mismos lotes.',
  ],
  ['Plan it again.', 'Planéela otra vez.'],
  [
    '{day} is past; a batch is planned for today, {today}, or a later day',
    '{day} ya pasó; una tanda se planea para hoy, {today}, o un día posterior',
  ],
  ['The lots on hand changed since you saw the blend.', 'Los lotes cambiaron desde que usted vio la mezcla.'],
  ['Now it takes {list} and costs {cost}.', 'Ahora lleva {list} y cuesta {cost}.'],
  ['Look at it again, then plan it.', 'Véala otra vez y después planéela.'],

  // Weighing
  [
    'Batch {batch} is {state}; "{step}" fits only a batch that is {list}.',
    'La tanda {batch} está en estado "{state}"; "{step}" solo se puede con una tanda en estado "{list}".',
  ],
  ['There is no batch "{batch}".', 'No hay ninguna tanda "{batch}".'],
  ['There is no batch "{batch}"', 'No hay ninguna tanda "{batch}"'],
  [
    'Line {line} is planned from {lot}; {taken} is another lot',
    'El renglón {line} está planeado con {lot}; {taken} es otro lote',
  ],
  ['{because}. If it is right, say why in reason.', '{because}. Si está bien, diga por qué en la razón.'],
  ['{because}. Check the weight, its unit and the line', '{because}. Revise el peso, su unidad y el renglón'],
  [
    '{because}. If it is right, send "meant": true and say in reason why.',
    '{because}. Si está bien, confírmelo y diga por qué en la razón.',
  ],
  [
    'Line {line}, {name}, asks {mass} into load {load}; with {added} there would be {total}, {times} times as much',
    'El renglón {line}, {name}, pide {mass} en la carga {load}; con {added} serían {total}, {times} veces lo pedido',
  ],
  [
    'Line {line}, {name}, asks {mass} into load {load}; with {added} there would be {total}, {percent} % more',
    'El renglón {line}, {name}, pide {mass} en la carga {load}; con {added} serían {total}, {percent} % más',
  ],
  [
    'There is no line {line}; the lines are 1 to {last}',
    'No hay renglón {line}; los renglones son del 1 al {last}',
  ],
  [
    'Line {line} goes into load {loads}, not {load}',
    'El renglón {line} va en la carga {loads}, no en la {load}',
  ],
  ['{lot} cannot go in: {because}. Take another lot.', '{lot} no puede entrar: {because}. Tome otro lote.'],
  ['no such lot is on hand', 'no hay ese lote'],
  ['line {line} is {name}, the lot is {other}', 'el renglón {line} es {name}, el lote es {other}'],
  ['{product} has no place for {name}', '{product} no tiene lugar para {name}'],
  ['the {list} of it is not known', 'no se conoce este dato: {list}'],
  [
    'Lot {lot} has {mass} for this batch, and {promised} promised to others; {asked} is asked. {remedy}',
    'El lote {lot} tiene {mass} para esta tanda, y {promised} prometidos a otras; se piden {asked}. {remedy}',
  ],
  [
    'Lot {lot} has {mass} for this batch; {asked} is asked. {remedy}',
    'El lote {lot} tiene {mass} para esta tanda; se piden {asked}. {remedy}',
  ],
  [
    'If all of it is on the scale and the scale is right, adjust the lot to {mass} first; otherwise take the rest from another lot.',
    'Si todo está en la báscula y la báscula está bien, ajuste primero el lote a {mass}; si no, tome el resto de otro lote.',
  ],
  [
    'Take out what is too much, weigh the rest from another lot, or count this one and adjust it.',
    'Saque lo que sobra, pese el resto de otro lote, o cuente este y ajústelo.',
  ],
  ['Batch {batch} has no weighing "{step}"', 'La tanda {batch} no tiene pesada "{step}"'],
  [
    'Weighing {step} was taken back already, by {who}: {reason}.',
    'La pesada {step} ya fue anulada, por {who}: {reason}.',
  ],
  ['Nothing is weighed into batch {batch}.', 'No se ha pesado nada en la tanda {batch}.'],
  ['Weigh it in, or cancel it.', 'Pésela o cancélela.'],
  ['Something is weighed into batch {batch}.', 'Ya hay algo pesado en la tanda {batch}.'],
  [
    'Take it back if it is not in the mixer; otherwise go on and finish the batch.',
    'Anúlelo si no está en la mezcladora; si no, siga y termine la tanda.',
  ],

  // Test and correction
  ['{mass} of line {line}', '{mass} del renglón {line}'],
  ['{mass} of {one}', '{mass} de {one}'],
  [
    '{percent} of fat cannot be in a mix of these lots, only {least} to {most}.',
    'Una mezcla de estos lotes no puede tener {percent} de grasa, solo de {least} a {most}.',
  ],
  ['Test again.', 'Analice otra vez.'],
  ['Batch {batch} still waits for {list}.', 'A la tanda {batch} todavía le falta {list}.'],
  ['Weigh it in first.', 'Pésela primero.'],
  ['Load {load} still waits for {list}.', 'A la carga {load} todavía le falta {list}.'],
  ['Nothing was weighed into load {load}', 'No se pesó nada en la carga {load}'],
  [
    'Load {load} is right as it is; nothing has to be added.',
    'La carga {load} está bien como está; no hay que agregar nada.',
  ],
  ['Finish the batch.', 'Termine la tanda.'],
  [
    'Load {load} of batch {batch} has no fat test since it was weighed.',
    'La carga {load} de la tanda {batch} no tiene análisis de grasa desde que se pesó.',
  ],
  ['Test it first.', 'Analícela primero.'],
  [
    'Test {test} is of batch {batch}; test the batch again, the last test counts.',
    'El análisis {test} es de la tanda {batch}; analice la tanda otra vez, cuenta el último análisis.',
  ],

  // Finish, packs, rework, record
  [
    '{more} more came out than the {mass} that were weighed in.',
    'Salieron {more} más que los {mass} que se pesaron.',
  ],
  [
    'Weigh the product again; if more went in, take the last weighing back and weigh it in again with what is missing.',
    'Pese el producto otra vez; si entró más, anule la última pesada y pésela otra vez con lo que falta.',
  ],
  [
    'A yield of {percent} % means that more water is gone than the batch held.',
    'Un rendimiento de {percent} % quiere decir que se fue más agua de la que tenía la tanda.',
  ],
  [
    'Weigh the product again, and give what was thrown away under discarded.',
    'Pese el producto otra vez y anote lo que se tiró como desechado.',
  ],
  [
    'More is taken out raw than the {mass} that were weighed in, so nothing is left for the product.',
    'Se saca crudo más que los {mass} que se pesaron, así que no queda nada para el producto.',
  ],
  ['Weigh it again.', 'Péselo otra vez.'],
  ['{day} is past; today is {today}.', '{day} ya pasó; hoy es {today}.'],
  ['Correct the use-by date.', 'Corrija la fecha de caducidad.'],
  [
    '{day} is later than the use-by date of lot {lot}, {other}.',
    '{day} es después de la fecha de caducidad del lote {lot}, {other}.',
  ],
  [
    'Give that day or an earlier one, or change the lot first.',
    'Dé ese día o uno anterior, o cambie primero el lote.',
  ],
  [
    'Pack {pack} declares {declared}, not {net}; leave net out, or name another format',
    'El empaque {pack} declara {declared}, no {net}; no ponga el peso neto o nombre otro formato',
  ],
  [
    'Packs {pack} are weighed one by one; give what they hold together as filled',
    'Los empaques {pack} se pesan uno por uno; dé lo que pesan juntos como llenado',
  ],
  [
    'Packs {pack} are weighed one by one; give what they hold together, such as {example}',
    'Los empaques {pack} se pesan uno por uno; dé lo que pesan juntos, como {example}',
  ],
  ['{mass} is too little for {count} packs', '{mass} es muy poco para {count} empaques'],
  [
    'These packs hold {mass}; {free} of lot {lot} is left for them.',
    'Estos empaques llevan {mass}; del lote {lot} quedan {free} para ellos.',
  ],
  [
    'Check count, net and filled; if more is there, count lot {other} and adjust it first.',
    'Revise cantidad, neto y llenado; si hay más, cuente el lote {other} y ajústelo primero.',
  ],
  [
    '{count} packs of {net} were filled with {mass}, {percent} % of what they declare. {remedy}.',
    '{count} empaques de {net} se llenaron con {mass}, {percent} % de lo que declaran. {remedy}.',
  ],
  ['Fill them up, or declare less', 'Complételos o declare menos'],
  ['Check count, net and filled', 'Revise cantidad, neto y llenado'],
  ['its packs are {packs}', 'sus empaques son {packs}'],
  [
    "it has none; add them to the product's label.packs",
    'no tiene ninguno; agréguelos en los empaques de la etiqueta del producto',
  ],
  ['"{pack}" is no pack of {name}; {because}', '"{pack}" no es un empaque de {name}; {because}'],
  ['{lots} of batch {batch} is still on hold.', '{lots} de la tanda {batch} sigue retenido.'],
  [
    'Decide what becomes of it first: release it, or book it as discarded.',
    'Decida primero qué se hace con eso: libérelo o regístrelo como desechado.',
  ],
  [
    'Batch {batch} is not closed: review its record before what it made leaves the plant ({rule}).',
    'La tanda {batch} no está cerrada: revise su registro antes de que lo que hizo salga de la planta ({rule}).',
  ],
  [
    'batch {batch} is {state} and was never finished',
    'la tanda {batch} está en estado "{state}" y nunca se terminó',
  ],
  [
    'Batch {batch} is no longer as you read it: version {version} then, {steps} and {state} now ({changes}). Read it again and decide anew.',
    'La tanda {batch} ya no está como usted la leyó: antes versión {version}, ahora {steps} y {state} ({changes}). Léala otra vez y decida de nuevo.',
  ],
  ['There is no record {one}', 'No hay registro {one}'],
  ['There is no record "{one}".', 'No hay registro "{one}".'],
  ['They are in GET /v1/records', 'Están en la lista de registros.'],
];
