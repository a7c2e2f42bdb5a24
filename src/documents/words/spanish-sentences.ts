import type { Told } from './teller.ts';

/**
 * Sentences that stand in a sheet as data, with places in braces for what differs. A sheet that was stored holds them
 * in English; they are found again by their pattern. The first that fits counts, so the narrower ones stand first.
 */
export const SPANISH_SENTENCES: Told = [
  // Cautions that stand on every sheet of such a product
  [
    'Nitrite is poisonous in excess: weigh the cure alone, have a second person check it, and never guess.',
    'El nitrito en exceso es venenoso: pese la sal de cura por separado, que una segunda persona la verifique, y nunca la calcule al tanteo.',
  ],
  [
    'Holds allergens ({allergens}): run it last or clean before the next product.',
    'Contiene alérgenos ({allergens}): prodúzcalo al final o limpie el equipo antes del siguiente producto.',
  ],
  [
    'Cooking and cooling follow the HACCP plan and its process authority; this sheet sets no lethality or cooling limit.',
    'La cocción y el enfriamiento se hacen según el plan HACCP y su autoridad de proceso; esta hoja no fija ningún límite de letalidad ni de enfriamiento.',
  ],
  [
    'Fermentation, drying and the control of trichinae and other pathogens follow the HACCP plan and its process authority; this sheet sets no limit of pH, water activity or time.',
    'La fermentación, el secado y el control de triquinas y otros patógenos se hacen según el plan HACCP y su autoridad de proceso; esta hoja no fija ningún límite de pH, actividad de agua ni tiempo.',
  ],
  [
    'Keep meat at or below 40 °F (4 °C) while it is worked (common practice).',
    'Mantenga la carne a 40 °F (4 °C) o menos mientras se trabaja (práctica común).',
  ],
  [
    'Local rules, the inspector and the HACCP plan of the plant come before this sheet.',
    'Las reglas locales, el inspector y el plan HACCP de la planta están por encima de esta hoja.',
  ],

  // Cautions of this blend
  [
    '{material}: {weight} is only 1 division of the {scale}; weigh it on a finer scale or blend it beforehand. A cure weighed so coarsely may be far off its rate.',
    '{material}: {weight} es solo 1 división de la báscula ({scale}); péselo en una báscula más fina o prepare antes una premezcla. Una sal de cura pesada con tan poca precisión puede quedar muy por arriba o por debajo de su dosis.',
  ],
  [
    '{material}: {weight} is only {count} divisions of the {scale}; weigh it on a finer scale or blend it beforehand. A cure weighed so coarsely may be far off its rate.',
    '{material}: {weight} son solo {count} divisiones de la báscula ({scale}); péselo en una báscula más fina o prepare antes una premezcla. Una sal de cura pesada con tan poca precisión puede quedar muy por arriba o por debajo de su dosis.',
  ],
  [
    '{material}: {weight} is only 1 division of the {scale}; weigh it on a finer scale or blend it beforehand.',
    '{material}: {weight} es solo 1 división de la báscula ({scale}); péselo en una báscula más fina o prepare antes una premezcla.',
  ],
  [
    '{material}: {weight} is only {count} divisions of the {scale}; weigh it on a finer scale or blend it beforehand.',
    '{material}: {weight} son solo {count} divisiones de la báscula ({scale}); péselo en una báscula más fina o prepare antes una premezcla.',
  ],
  [
    'Fat of {lot} was not tested; {percent} % is expected from {tests} of {lotCount} of this trim from Est. {establishment} up to {day}, class figure weighs {weight} %: test the ground batch.',
    'La grasa de {lot} no se analizó; se espera {percent} % según {tests} de {lotCount} de este recorte del Est. {establishment} hasta {day}, la cifra de su clase cuenta {weight} %: analice la tanda molida.',
  ],
  [
    'Fat of {lot} was not tested; {percent} % is expected from {says}: test the ground batch.',
    'La grasa de {lot} no se analizó; se espera {percent} % según {says}: analice la tanda molida.',
  ],
  [
    'Fat of {lot} is worked out from the batch that it was left over from, not tested: test the ground batch.',
    'La grasa de {lot} se calculó de la tanda de la que sobró, no se analizó: analice la tanda molida.',
  ],
  [
    'Fat of {lots} is the figure of its class, not a test of the lot: test the ground batch.',
    'La grasa de {lots} es la cifra de su clase, no un análisis del lote: analice la tanda molida.',
  ],
  [
    'Rework goes in ({lots}): only what was kept cold and clean and is free of inedible casing. What is wrong with its batch is then wrong with this one: keep the two together in the records. Which rework may go in, and for how long, is for the HACCP plan to say.',
    'Lleva reproceso ({lots}): solo el que se mantuvo frío y limpio y quedó sin nada de tripa no comestible. Lo que esté mal en su tanda estará mal también en esta: mantenga las dos juntas en los registros. Qué reproceso puede entrar, y por cuánto tiempo, lo dice el plan HACCP.',
  ],
  [
    'The declared yield is reckoned on the rework as well, which has lost weight once and will lose less now: weigh the finished batch, and test its moisture where it is near a limit.',
    'El rendimiento declarado se calcula también sobre el reproceso, que ya perdió peso una vez y ahora perderá menos: pese la tanda terminada y, si la humedad está cerca de un límite, analícela.',
  ],
  [
    'The limits on these were entered from memory; look at the rule before relying on them: {substances}.',
    'Los límites de lo siguiente se anotaron de memoria; consulte la norma antes de confiar en ellos: {substances}.',
  ],
  [
    'Switched off by the house: "{limit}" ({citation}). Reason given: {reason}. The law still holds: ask the inspector.',
    'Desactivado por la planta: "{limit}" ({citation}). Razón dada: {reason}. La ley sigue vigente: pregunte al inspector.',
  ],
  [
    'Figures of the finished product rest on the declared yield of {percent} %: weigh the finished batch and compare.',
    'Las cifras del producto terminado se basan en el rendimiento declarado de {percent} %: pese la tanda terminada y compare.',
  ],
  [
    "Ingoing nitrite is {ppm} ppm; inspectors' material asks for at least {least} in a cured product that is kept refrigerated ({source}). Ask the inspector.",
    'El nitrito agregado es de {ppm} ppm; el material de los inspectores pide al menos {least} en un producto curado que se mantiene refrigerado ({source}). Pregunte al inspector.',
  ],
  [
    'A curing accelerator goes in without a cure; 9 CFR 424.21(c) has it only together with one.',
    'Lleva un acelerador de curado sin sal de cura; 9 CFR 424.21(c) lo admite solo junto con una.',
  ],
  [
    'The label says {label} % fat and the batch has {batch} %: set a least fat, or sell it as what it is.',
    'La etiqueta dice {label} % de grasa y la tanda tiene {batch} %: fije un mínimo de grasa, o véndala con la etiqueta que le corresponde.',
  ],
  [
    'The batch is {missing} kg short of the {asked} kg asked ({basis}): the lots end there on the scales they are weighed on. Weigh on a finer scale, or take another lot.',
    'A la tanda le faltan {missing} kg de los {asked} kg pedidos ({basis}): los lotes no alcanzan para más en las básculas en que se pesan. Pese en una báscula más fina o tome otro lote.',
  ],

  // What a line was asked to be
  [
    '{percent} % of {basis} (weighed {weighed} %), together with {lots}',
    '{percent} % sobre {basis} (pesado {weighed} %), junto con {lots}',
  ],
  ['{percent} % of {basis} (weighed {weighed} %)', '{percent} % sobre {basis} (pesado {weighed} %)'],

  // Why a supply is left out
  ['on hold: {reason}', 'retenido: {reason}'],
  ['past its use-by date {day}', 'ya pasó su fecha de caducidad {day}'],
  // "Hasta" is not before in Mexico and until elsewhere.
  ['received only on {day}', 'no se recibe antes del {day}'],
  ['nothing on hand', 'sin existencias'],

  // Usual steps at the mixer; a plant writes its own in the language that it wants
  ['Mix 1 minute between the two grinds', 'Mezclar 1 minuto entre las dos moliendas'],
  ['Mix {count} minutes between the two grinds', 'Mezclar {count} minutos entre las dos moliendas'],
  ['Mix 1 minute with the seasoning', 'Mezclar 1 minuto con el condimento'],
  ['Mix {count} minutes with the seasoning', 'Mezclar {count} minutos con el condimento'],
  ['Mix 1 minute after the seasoning is in', 'Mezclar 1 minuto después de agregar el condimento'],
  [
    'Mix {count} minutes after the seasoning is in',
    'Mezclar {count} minutos después de agregar el condimento',
  ],
  [
    'Add the dry milk and the water, mix {count} minutes',
    'Agregar la leche en polvo y el agua, mezclar {count} minutos',
  ],
  [
    'Mix 1 minute with the salt, the cure and half of the ice',
    'Mezclar 1 minuto con la sal común, la sal de cura (nitrito) y la mitad del hielo',
  ],
  [
    'Add the phosphate, the spices and the rest of the ice, mix {count} minutes',
    'Agregar el fosfato, las especias y el resto del hielo, mezclar {count} minutos',
  ],
  [
    'Mix {count} minutes with water and seasoning, then the rusk',
    'Mezclar {count} minutos con el agua y el condimento, después la galleta molida (rusk)',
  ],
  ['1 test', '1 análisis'],
  ['{count} tests', '{count} análisis'],
  ['1 lot', '1 lote'],
  ['{count} lots', '{count} lotes'],
];
