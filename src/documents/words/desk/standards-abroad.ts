import type { Told } from '../teller.ts';

/** Names of product classes elsewhere; what is a name of one country stays as it is. */
export const STANDARDS_ABROAD: Told = [
  // European Union and Great Britain
  ['fresh sausage and other meat preparations', 'embutido fresco y otros preparados de carne'],
  ['burger without sulfite and phosphate', 'hamburguesa sin sulfito ni fosfato'],
  [
    'breakfast sausage, muscle and fat completely dispersed',
    'breakfast sausage, con músculo y grasa completamente dispersos',
  ],
  ['burger meat with vegetables or cereal mixed in', 'burger meat, con verduras o cereal mezclados'],
  [
    'salsicha fresca, longaniza fresca, butifarra fresca',
    'salsicha fresca, longaniza fresca, butifarra fresca',
  ],
  ['Bílá, vinná, sváteční and syrová klobása', 'Bílá, vinná, sváteční y syrová klobása'],
  [
    'lomo, careta and costilla de cerdo adobada, pincho moruno, kiełbasa surowa biała and metka, tatar wołowy, golonka peklowana',
    'lomo, careta y costilla de cerdo adobados, pincho moruno, kiełbasa surowa biała y metka, tatar wołowy, golonka peklowana',
  ],
  [
    'Kasseler, Bräte, Surfleisch, toorvorst, šašlõkk, ahjupraad',
    'Kasseler, Bräte, Surfleisch, toorvorst, šašlõkk, ahjupraad',
  ],
  [
    'dried or fermented sausage and other meat products that are not heat treated',
    'embutido seco o fermentado y otros productos cárnicos sin tratamiento térmico',
  ],
  [
    'cooked sausage, cooked ham and other heat-treated meat products',
    'embutido cocido, jamón cocido y otros productos cárnicos con tratamiento térmico',
  ],
  ['sterilised meat products (Fo above 3.00)', 'productos cárnicos esterilizados (Fo mayor de 3.00)'],
  ['sterilised meat product (Fo above 3.00)', 'producto cárnico esterilizado (Fo mayor de 3.00)'],
  ['dry sausage cured with nitrate alone', 'embutido seco curado solo con nitrato'],
  [
    'salami and Kantwurst without nitrite, ripened for at least 4 weeks',
    'salami y Kantwurst sin nitrito, madurados al menos 4 semanas',
  ],
  [
    'salchichón and chorizo of long curing without nitrite, ripened for at least 30 days',
    'salchichón y chorizo de curación larga sin nitrito, madurados al menos 30 días',
  ],
  [
    'saucisson sec without nitrite, ripened for at least 3 weeks',
    'saucisson sec sin nitrito, madurado al menos 3 semanas',
  ],
  [
    'spreadable, soft, short-ripened raw sausage (Mettwurst, Teewurst)',
    'embutido crudo untable, blando, de maduración corta (Mettwurst, Teewurst)',
  ],
  [
    'Vysočina, selský salám, poličan, lovecký salám, paprikáš and similar',
    'Vysočina, selský salám, poličan, lovecký salám, paprikáš y similares',
  ],
  [
    'svensk leverpastej, svensk julskinka and similar, cooked in the package',
    'svensk leverpastej, svensk julskinka y similares, cocidos en el empaque',
  ],
  [
    'bacon, filet de bacon and similar, immersion cured with nitrite',
    'bacon, filet de bacon y similares, curados por inmersión con nitrito',
  ],
  [
    'bacon, filet de bacon and similar, immersion cured with nitrate alone',
    'bacon, filet de bacon y similares, curados por inmersión solo con nitrato',
  ],
  [
    'Wiltshire bacon, entremeada, toucinho fumado and similar, immersion cured',
    'Wiltshire bacon, entremeada, toucinho fumado y similares, curados por inmersión',
  ],
  ['Wiltshire ham and similar, immersion cured', 'Wiltshire ham y similares, curados por inmersión'],
  [
    'cured tongue, immersion cured for at least 4 days and cooked',
    'lengua curada, por inmersión al menos 4 días, y cocida',
  ],
  [
    'dry cured bacon and similar, matured for at least 4 days',
    'tocino curado en seco y similares, madurados al menos 4 días',
  ],
  [
    'dry cured ham, jamón curado, lomo embuchado, presunto and similar',
    'dry cured ham, jamón curado, lomo embuchado, presunto y similares',
  ],
  ['jambon sec, jambon sel and similar, without nitrite', 'jambon sec, jambon sel y similares, sin nitrito'],
  ['Rohschinken, immersion cured, dry cured or both', 'Rohschinken, curado por inmersión, en seco o ambos'],
  ['jellied veal and brisket, injected and cooked', 'ternera y pecho en gelatina, inyectados y cocidos'],
  ['pork sausage, link or chipolata', 'salchicha de cerdo, en ristra o chipolata'],
  [
    'pork breakfast sausage, which may hold sulfite and phosphate',
    'salchicha de cerdo de desayuno, que puede llevar sulfito y fosfato',
  ],
  ['sausage of pork that is not called pork sausage', 'embutido de cerdo que no se llama "pork sausage"'],
  ['sausage of birds or rabbits', 'embutido de aves o conejos'],
  ['sausage of other species or mixed', 'embutido de otras especies o mixto'],
  [
    'breakfast sausage of other species or mixed, which may hold sulfite and phosphate',
    'salchicha de desayuno de otras especies o mixta, que puede llevar sulfito y fosfato',
  ],
  ['{what} of pork only', '{what} solo de cerdo'],
  ['{what} of meat of birds and rabbits only', '{what} solo de carne de aves y conejos'],
  ['{what} of other species or mixed', '{what} de otras especies o de mezcla'],
  ['chopped pork or ham', 'cerdo o jamón picado'],
  [
    'minced beef under the national mark "For UK market only"; not for lean mince',
    'carne picada de vacuno con la marca nacional "For UK market only"; no para carne picada magra',
  ],
  ['dried or fermented sausage', 'embutido seco o fermentado'],
  [
    'cooked meat product that bears no reserved description',
    'producto cárnico cocido sin denominación reservada',
  ],
  ['{what} and similar', '{what} y similares'],
  ['Wiltshire bacon', 'Wiltshire bacon'],
  ['Wiltshire ham', 'Wiltshire ham'],
  ['dry cured ham', 'jamón curado en seco'],

  // Canada
  ['extra lean ground beef', 'carne molida de res extra magra'],
  ['lean ground beef', 'carne molida de res magra'],
  ['medium ground beef', 'carne molida de res mediana'],
  ['regular ground beef', 'carne molida de res regular'],
  ['extra lean ground pork', 'carne molida de cerdo extra magra'],
  ['lean ground pork', 'carne molida de cerdo magra'],
  ['medium ground pork', 'carne molida de cerdo mediana'],
  ['regular ground pork', 'carne molida de cerdo regular'],
  ['beef patty: ground beef with seasoning', 'tortita de res: carne molida de res con condimento'],
  ['beef burger: ground beef with filler', 'hamburguesa de res: carne molida de res con relleno'],
  ['cured sausage, uncooked', 'embutido curado, crudo'],
  ['cooked sausage, cured', 'embutido cocido, curado'],
  ['cooked sausage without a cure', 'embutido cocido sin sal de cura'],
  ['dry and semi-dry sausage, cured', 'embutido seco y semiseco, curado'],
  ['extended meat product like fresh sausage', 'producto cárnico extendido como salchicha fresca'],
  [
    'extended meat product like cooked sausage, loaf or luncheon meat',
    'producto cárnico extendido como embutido cocido, pastel o luncheon meat',
  ],
  ['meat balls, croquettes and steakettes with filler', 'albóndigas, croquetas y bistecitos con relleno'],
  ['cured solid cut, uncooked', 'corte entero curado, crudo'],
  ['cured solid cut, cooked, such as ham', 'corte entero curado, cocido, como jamón'],
  ['slow cured meat', 'carne de curado lento'],

  // Codex Alimentarius, Australia and New Zealand
  ['fresh meat, comminuted or in pieces', 'carne fresca, picada o en piezas'],
  ['processed comminuted meat, sausage among it', 'carne picada procesada, embutidos incluidos'],
  [
    'processed meat in whole cuts or pieces, not heat treated',
    'carne procesada en cortes enteros o piezas, sin tratamiento térmico',
  ],
  [
    'processed meat in whole cuts or pieces, heat treated',
    'carne procesada en cortes enteros o piezas, con tratamiento térmico',
  ],
  ['corned beef in a sealed container', 'corned beef en envase cerrado'],
  ['cooked cured chopped meat', 'carne picada curada cocida'],
  [
    'patties and rissoles that are not of sausage meat',
    'tortitas y rissoles que no son de masa para embutido',
  ],
  ['sausage and sausage meat of raw meat', 'embutido y masa para embutido de carne cruda'],
  ['cooked sausage, cured or not', 'embutido cocido, curado o no'],
  ['fermented comminuted meat', 'carne picada fermentada'],
  [
    'cured or dried meat flesh in whole cuts or pieces, such as ham and bacon',
    'carne curada o seca en cortes enteros o piezas, como jamón y tocino',
  ],
  ['slow dry cured meat in whole cuts', 'carne curada en seco lentamente, en cortes enteros'],
  ['meat pie', 'pay de carne'],

  // Whose rules
  ['United States, 9 CFR chapter III', 'Estados Unidos, 9 CFR capítulo III'],
  ['European Union and Northern Ireland', 'Unión Europea e Irlanda del Norte'],
  [
    'Great Britain (Northern Ireland: see European Union)',
    'Gran Bretaña (Irlanda del Norte: vea Unión Europea)',
  ],
  ['Canada, Food and Drug Regulations', 'Canadá, Food and Drug Regulations'],
  ['Codex Alimentarius', 'Codex Alimentarius'],
  ['Australia and New Zealand, Food Standards Code', 'Australia y Nueva Zelanda, Food Standards Code'],
];
