import { DISODIUM_PHOSPHATE_PER_P2O5, PHOSPHORUS_PER_P2O5 } from '../../chemistry.ts';
import { carried, form, kinds, mass } from './build.ts';

/**
 * Phosphates, binders, antimicrobials, antioxidants and preservatives. Some count by their kind, and by what they
 * carry wherever something of another kind brings it.
 */

const BINDER = kinds('binder');
const NOT_BINDER = { exceptKinds: ['binder'] } as const;
const CURING_KIND = kinds('cure', 'cure accelerator');
const ANTIMICROBIAL = kinds('antimicrobial');
const NOT_ANTIMICROBIAL = { exceptKinds: ['antimicrobial'] } as const;

export const ADDITIVES = {
  phosphate: form('phosphate', 'phosphates', carried('phosphate')),
  phosphateAsP2O5: form('phosphateAsP2O5', 'phosphates, as phosphorus pentoxide', carried('P2O5')),
  phosphateAsPhosphorus: form(
    'phosphateAsPhosphorus',
    'phosphates, as phosphorus',
    carried('P2O5', PHOSPHORUS_PER_P2O5),
  ),
  phosphateAsDisodiumPhosphate: form(
    'phosphateAsDisodiumPhosphate',
    'phosphates, as disodium phosphate',
    carried('P2O5', DISODIUM_PHOSPHATE_PER_P2O5),
  ),

  binder: form(
    'binder',
    'binders and extenders, isolated soy protein and caseinate counted at 3.5/2 of their weight',
    mass(BINDER),
    carried('isolated soy protein', 0.75, BINDER),
    carried('sodium caseinate', 0.75, BINDER),
    carried('isolated soy protein', 1.75, NOT_BINDER),
    carried('sodium caseinate', 1.75, NOT_BINDER),
  ),
  anyBinder: form(
    'anyBinder',
    'binders and extenders',
    mass(BINDER),
    carried('isolated soy protein', 1, NOT_BINDER),
    carried('sodium caseinate', 1, NOT_BINDER),
  ),
  binderOtherThanTransglutaminase: form(
    'binderOtherThanTransglutaminase',
    'binders and extenders other than transglutaminase enzyme',
    mass(BINDER),
    carried('transglutaminase', -1, BINDER),
    carried('isolated soy protein', 1, NOT_BINDER),
    carried('sodium caseinate', 1, NOT_BINDER),
  ),
  isolatedSoy: form('isolatedSoy', 'isolated soy protein', carried('isolated soy protein')),
  caseinate: form('caseinate', 'sodium caseinate', carried('sodium caseinate')),
  soyConcentrate: form('soyConcentrate', 'soy protein concentrate', carried('soy protein concentrate')),
  modifiedStarch: form('modifiedStarch', 'modified food starch', carried('modified food starch')),
  carrageenan: form('carrageenan', 'carrageenan', carried('carrageenan')),
  methylCellulose: form('methylCellulose', 'methyl cellulose', carried('methyl cellulose')),
  transglutaminase: form('transglutaminase', 'transglutaminase enzyme', carried('transglutaminase')),
  porkCollagen: form('porkCollagen', 'pork collagen', carried('pork collagen')),
  cornSyrup: form('cornSyrup', 'corn syrup and glucose syrup, dry', carried('corn syrup solids')),
  sorbitol: form('sorbitol', 'sorbitol', carried('sorbitol')),

  antimicrobials: form(
    'antimicrobials',
    'antimicrobials',
    mass(ANTIMICROBIAL),
    carried('lactate', 1, NOT_ANTIMICROBIAL),
    carried('diacetate', 1, NOT_ANTIMICROBIAL),
  ),
  lactate: form('lactate', 'sodium and potassium lactate', carried('lactate')),
  diacetate: form('diacetate', 'sodium diacetate', carried('diacetate')),
  sodiumAcidPyrophosphateAndAccelerators: form(
    'sodiumAcidPyrophosphateAndAccelerators',
    'sodium acid pyrophosphate and other curing accelerators together',
    carried('sodium acid pyrophosphate'),
    carried('ascorbic acid'),
    carried('erythorbic acid'),
    carried('sodium ascorbate'),
    carried('sodium erythorbate'),
    carried('sodium erythorbate monohydrate'),
    carried('citric acid', 1, CURING_KIND),
    carried('fumaric acid'),
    carried('glucono delta lactone'),
  ),
  sulfurDioxide: form('sulfurDioxide', 'sulfites, as sulfur dioxide', carried('sulfur dioxide')),

  antioxidants: form(
    'antioxidants',
    'BHA, BHT, propyl gallate and TBHQ together',
    carried('BHA'),
    carried('BHT'),
    carried('propyl gallate'),
    carried('TBHQ'),
  ),
  BHA: form('BHA', 'BHA', carried('BHA')),
  BHT: form('BHT', 'BHT', carried('BHT')),
  propylGallate: form('propylGallate', 'propyl gallate', carried('propyl gallate')),
  TBHQ: form('TBHQ', 'TBHQ', carried('TBHQ')),
  tocopherols: form('tocopherols', 'tocopherols', carried('tocopherols')),
} as const;
