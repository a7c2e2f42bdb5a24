import type { Told } from '../teller.ts';

/** What only a laboratory or the eye can show. */
export const LABORATORY: Told = [
  [
    'Nitrite found in the finished product is at most {bound}, as {as}.',
    'El nitrito que se encuentra en el producto terminado es como máximo {bound}, como {as}.',
  ],
  [
    'Without nitrite or nitrate, and unless commercially sterile, the label says "Not Preserved" but for a pH of at most {ph}, a water activity of at most {activity} or a brine of at least {brine}.',
    'Sin nitrito ni nitrato, y si no es comercialmente estéril, la etiqueta dice "Not Preserved" (sin conservar), salvo con un pH de {ph} como máximo, una actividad de agua de {activity} como máximo o una salmuera de {brine} al menos.',
  ],
  [
    'Semi-dry sausage kept without refrigeration has a pH of at most {ph}.',
    'El embutido semiseco que se guarda sin refrigeración tiene un pH de {ph} como máximo.',
  ],
  [
    'Semi-dry sausage reaches a pH of at most {ph} in the fermentation.',
    'El embutido semiseco llega en la fermentación a un pH de {ph} como máximo.',
  ],
  [
    'Jerky kept without refrigeration has a water activity of at most {activity}.',
    'La carne seca (jerky) que se guarda sin refrigeración tiene una actividad de agua de {activity} como máximo.',
  ],
  [
    'No sample lies below the least PFF by {points} percentage points, or by {other} points out of a smokehouse.',
    'Ninguna muestra queda {points} puntos porcentuales por debajo del PFF mínimo, o {other} puntos si sale de un ahumador.',
  ],
  [
    'Of the binders only one goes in, or one of the pairs that {rule} names.',
    'De los ligadores solo entra uno, o uno de los pares que nombra {rule}.',
  ],
  [
    'Finely chopped ham shank meat is at most {bound} above what boneless ham normally holds.',
    'La carne de chambarete de jamón finamente picada es como máximo {bound} más de lo que lleva normalmente el jamón sin hueso.',
  ],
  [
    'Pumped bacon, fried, shows no nitrosamines that can be confirmed at {bound}.',
    'El tocino inyectado, frito, no muestra nitrosaminas que se puedan confirmar a {bound}.',
  ],
  [
    'Lactic acid bacteria go in at a level that keeps botulinum toxin from forming.',
    'Se agregan bacterias lácticas en una cantidad que impide que se forme toxina botulínica.',
  ],
  [
    'The finished product holds at least {bound} of salt inside.',
    'El producto terminado tiene por dentro al menos {bound} de sal.',
  ],
  [
    'The product is treated for the destruction of possible live trichinae.',
    'El producto se trata para destruir posibles triquinas vivas.',
  ],
  [
    'The finished product has a brine concentration of at least {brine} or a water activity of at most {activity}.',
    'El producto terminado tiene una concentración de salmuera de {brine} al menos o una actividad de agua de {activity} como máximo.',
  ],
  [
    'The pieces that are cured weigh at least {mass} each.',
    'Las piezas que se curan pesan al menos {mass} cada una.',
  ],
  [
    'Eaten raw: no Salmonella in {mass} of minced meat or meat preparation, in {count} samples.',
    'Se come crudo: sin Salmonella en {mass} de carne picada o preparado de carne, en {count} muestras.',
  ],
  [
    'Of poultry, eaten cooked: no Salmonella in {mass} of minced meat or meat preparation, in {count} samples.',
    'De ave, se come cocido: sin Salmonella en {mass} de carne picada o preparado de carne, en {count} muestras.',
  ],
  [
    'Of other species, eaten cooked: no Salmonella in {mass} of minced meat or meat preparation, in {count} samples.',
    'De otras especies, se come cocido: sin Salmonella en {mass} de carne picada o preparado de carne, en {count} muestras.',
  ],
  [
    'Aerobic colonies: {low} to {high} in at most {few} of {count} samples, more in none.',
    'Colonias aerobias: de {low} a {high} en {few} de {count} muestras como máximo, más en ninguna.',
  ],
  [
    'Escherichia coli: {low} to {high} in at most {few} of {count} samples, more in none.',
    'Escherichia coli: de {low} a {high} en {few} de {count} muestras como máximo, más en ninguna.',
  ],
  [
    '{what} is at most {bound} through the shelf life, as {as}.',
    '{what}: como máximo {bound} durante la vida útil, como {as}.',
  ],
  [
    '{what} is at most {bound} at the end of production, as {as}.',
    '{what}: como máximo {bound} al final de la producción, como {as}.',
  ],
  [
    '{what} at the end of production is at most {bound}, as {as}.',
    '{what} al final de la producción: como máximo {bound}, como {as}.',
  ],
  [
    '{what} above {bound}, as {as}, must be investigated.',
    '{what} por encima de {bound}, como {as}, se tiene que investigar.',
  ],
  [
    'Ready to eat: Listeria monocytogenes is at most {bound} through the shelf life, in {count} samples.',
    'Listo para comer: Listeria monocytogenes es como máximo {bound} durante la vida útil, en {count} muestras.',
  ],
  [
    'The heat process reaches an Fo above {bound} (an Fo of 3 is 3 minutes at 121 °C).',
    'El proceso térmico alcanza un Fo mayor de {bound} (un Fo de 3 son 3 minutos a 121 °C).',
  ],
  [
    'Acidity, drying and the control of parasites follow the process that the inspection agency accepts.',
    'La acidez, el secado y el control de parásitos siguen el proceso que acepta la autoridad de inspección.',
  ],
  [
    'Nitrite left in {where} is at most {bound}, as {as}.',
    'Nitrito que queda en {where}: como máximo {bound}, como {as}.',
  ],
  [
    'At least half of the meat is in coarse pieces (ground through a plate of {size} or more), and no piece is larger than {largest}.',
    'Al menos la mitad de la carne está en trozos gruesos (molida con una placa de {size} o más), y ningún trozo mide más de {largest}.',
  ],
  [
    'Nitrites and nitrates together are at most {bound} in a kilogram of the food as sold, as sodium nitrite ({other} as sodium nitrate where it is slow dry cured or fermented).',
    'Los nitritos y nitratos en conjunto son como máximo {bound} en un kilogramo del alimento tal como se vende, como nitrito de sodio ({other} como nitrato de sodio si se cura en seco lentamente o se fermenta).',
  ],
  [
    'The name says whether it was heat treated, cooked or neither; which of them needs the record of its temperatures.',
    'El nombre dice si recibió tratamiento térmico, si se coció o ninguno de los dos; para saber cuál hace falta el registro de sus temperaturas.',
  ],
];
