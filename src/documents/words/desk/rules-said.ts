import type { Told } from '../teller.ts';

/** Limits that are said in no common way. */
export const RULES_SAID: Told = [
  // What goes in and what does not
  [
    'No beef fat is added as such: the fat comes with the trimmings.',
    'No se agrega grasa de res como tal: la grasa viene con los recortes.',
  ],
  [
    'No water is added, and no liquid that brings water.',
    'No se agrega agua, ni ningún líquido que lleve agua.',
  ],
  [
    'No antimicrobial is added: the standard names beef and seasoning.',
    'No se agrega ningún antimicrobiano: la norma nombra carne de res y condimento.',
  ],
  [
    'No antimicrobial is added: the paragraph names meat, fat and one binder.',
    'No se agrega ningún antimicrobiano: el párrafo nombra carne, grasa y un ligador.',
  ],
  [
    'A product of this standard sold without the word "cured" holds no nitrite or nitrate.',
    'Un producto de esta norma que se vende sin la palabra "cured" (curado) no lleva nitrito ni nitrato.',
  ],
  [
    'Of the byproducts only partially defatted beef fatty tissue goes in.',
    'De los subproductos solo entra tejido graso de res parcialmente desgrasado.',
  ],
  ['Of the byproducts only liver goes in, and fat.', 'De los subproductos solo entran hígado y grasa.'],
  [
    'Mechanically separated beef is not human food.',
    'La carne de res separada mecánicamente no es alimento para personas.',
  ],
  [
    'Mechanically separated meat of cattle, sheep and goats is not produced for food.',
    'La carne separada mecánicamente de bovino, ovino y caprino no se produce para alimento.',
  ],
  [
    'No extender goes in, and of the binders only transglutaminase enzyme.',
    'No entra ningún extensor, y de los ligadores solo la enzima transglutaminasa.',
  ],
  [
    'No extender goes into farmer summer sausage.',
    'En la salchicha de verano estilo granja no entra ningún extensor.',
  ],
  [
    'No binder but transglutaminase goes in: the standard names no other.',
    'No entra ningún ligador más que la transglutaminasa: la norma no nombra otro.',
  ],
  [
    'No other binder goes into ham than those that the rules list for it.',
    'En el jamón no entra ningún otro ligador que los que las reglas enumeran para él.',
  ],
  [
    'Binders go into ham with natural juices, ham water added and ham and water product alone.',
    'Los ligadores solo entran en jamón con jugos naturales, jamón con agua agregada y producto de jamón y agua.',
  ],
  [
    'The standard names no binder or extender, so none goes in.',
    'La norma no nombra ningún ligador ni extensor, así que no entra ninguno.',
  ],
  [
    'The section names no phosphate, so none goes in.',
    'La sección no nombra ningún fosfato, así que no entra ninguno.',
  ],
  [
    'No mechanically separated meat goes in under the plain name.',
    'Con el nombre simple no entra carne separada mecánicamente.',
  ],
  [
    'No mechanically separated meat goes into cuts: the rule lists them by their sections.',
    'En los cortes no entra carne separada mecánicamente: la regla los enumera por sus secciones.',
  ],
  ['Phosphates are permitted in cooked sausage only.', 'Los fosfatos solo se permiten en embutido cocido.'],
  [
    'No poultry goes in: the standard names meat and its byproducts.',
    'No entra ave: la norma nombra carne y sus subproductos.',
  ],
  ['No poultry goes in: the standard names meat.', 'No entra ave: la norma nombra carne.'],
  ['No poultry goes in: the standard is of meat.', 'No entra ave: la norma es de carne.'],
  ['No byproducts go in: the standard is of meat.', 'No entran subproductos: la norma es de carne.'],
  [
    'Meat goes in as it comes from one hog; single parts bought apart do not.',
    'La carne entra como viene de un cerdo; las partes sueltas compradas aparte, no.',
  ],
  [
    'Poultry in this class is deboned meat without skin or added fat.',
    'El ave en esta clase es carne deshuesada sin piel ni grasa agregada.',
  ],
  [
    'Byproducts need "with byproducts" or "with variety meats" in the name.',
    'Los subproductos exigen "with byproducts" (con subproductos) o "with variety meats" (con vísceras) en el nombre.',
  ],
  ['Heart and tongue are variety meats in this class.', 'El corazón y la lengua son vísceras en esta clase.'],
  [
    'Fat added as such is a byproduct in this class: the fat comes with the muscle.',
    'La grasa agregada como tal es un subproducto en esta clase: la grasa viene con el músculo.',
  ],
  [
    'Liver and skin of livestock are not among the variety meats of this class.',
    'El hígado y la piel de ganado no están entre las vísceras de esta clase.',
  ],
  [
    'Only pork, beef and veal go in, and livers of these, of sheep and of goats.',
    'Solo entran cerdo, res y ternera, e hígados de estos, de ovino y de caprino.',
  ],
  [
    'Product with a binder or filler is called patties.',
    'El producto con ligador o relleno se llama "patties" (tortitas).',
  ],
  [
    'Bacon is pork belly, so no mechanically separated meat goes in.',
    'El tocino es barriga de cerdo, así que no entra carne separada mecánicamente.',
  ],
  ['Salt goes on dry.', 'La sal se aplica en seco.'],
  [
    'No water goes in: the piece is neither injected with a curing solution nor placed in one.',
    'No entra agua: la pieza ni se inyecta con salmuera ni se sumerge en ella.',
  ],
  [
    'Without nitrate and nitrite none of either goes in.',
    'Sin nitrato ni nitrito quiere decir que no entra nada de ninguno de los dos.',
  ],
  [
    'Nothing but meat and a little salt goes into minced meat.',
    'En la carne picada no entra nada más que carne y un poco de sal.',
  ],
  [
    'Nothing but meat goes into ground meat: no filler, seasoning, phosphate or preservative.',
    'En la carne molida no entra nada más que carne: ni relleno, ni condimento, ni fosfato, ni conservador.',
  ],
  ['No filler goes into a patty; seasoning may.', 'En la tortita no entra relleno; condimento sí.'],
  [
    'Minced meat is of skeletal muscle with the fat attached to it; masseters may go in.',
    'La carne picada es de músculo esquelético con la grasa adherida; los maseteros pueden entrar.',
  ],
  [
    'Minced meat with pigmeat has a designation of its own.',
    'La carne picada con cerdo tiene su propia denominación.',
  ],
  [
    'The meat of a hamburger is beef, pork or both.',
    'La carne de una hamburguesa es de res, de cerdo o de ambas.',
  ],
  ['Side bacon is of pork.', 'El tocino de costado es de cerdo.'],
  [
    'Certain offal of mammals does not go into uncooked products.',
    'Ciertas vísceras de mamíferos no entran en productos sin cocer.',
  ],
  [
    'Nitrite and nitrate are not authorised in fresh products outside a closed list.',
    'El nitrito y el nitrato no se autorizan en productos frescos fuera de una lista cerrada.',
  ],
  [
    'Nitrite and nitrate have no place in fresh meat.',
    'El nitrito y el nitrato no tienen lugar en la carne fresca.',
  ],
  [
    'Nitrate has no figure here for this food category, so none goes in.',
    'Aquí no hay cifra de nitrato para esta categoría de alimento, así que no entra nada.',
  ],
  [
    'A product under a row for nitrate alone takes no nitrite.',
    'Un producto del renglón de solo nitrato no lleva nitrito.',
  ],
  [
    'Spreadable raw sausage under its own row takes no nitrate.',
    'El embutido crudo untable de su propio renglón no lleva nitrato.',
  ],
  [
    'A traditional product under a row for nitrite takes no nitrate.',
    'Un producto tradicional del renglón de nitrito no lleva nitrato.',
  ],
  [
    'Sulfites go into sausage and sausage meat only, never into mince, plain patties or other meat.',
    'Los sulfitos solo entran en embutido y masa para embutido, nunca en carne picada, tortitas simples ni otra carne.',
  ],

  // How much
  [
    'Meat, or meat and fat, is at least {bound} of Italian sausage.',
    'Carne, o carne y grasa: al menos {bound} de la salchicha italiana.',
  ],
  [
    'Fresh liver is at least {bound} of all ingredients of braunschweiger.',
    'Hígado fresco: al menos {bound} de todos los ingredientes del braunschweiger.',
  ],
  [
    'Fresh liver is at least {bound} of all ingredients of liver sausage.',
    'Hígado fresco: al menos {bound} de todos los ingredientes de la salchicha de hígado.',
  ],
  [
    'Fresh meat and byproducts without bone are at least {bound} of scrapple.',
    'Carne fresca y subproductos sin hueso: al menos {bound} del scrapple.',
  ],
  [
    'Beef cheek, head and heart meat together are at most {bound} of the meat of corned beef.',
    'Carne de cachete, cabeza y corazón de res en conjunto: como máximo {bound} de la carne del corned beef.',
  ],
  [
    'Beef cheek, head and heart meat together are at most {bound} of the meat of roast beef.',
    'Carne de cachete, cabeza y corazón de res en conjunto: como máximo {bound} de la carne del rosbif.',
  ],
  [
    'A cured product holds at least {bound} of nitrite and nitrate put in, alone or together.',
    'Producto curado: al menos {bound} de nitrito y nitrato agregados, solos o juntos.',
  ],
];
