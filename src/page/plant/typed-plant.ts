import type { MassUnit } from '../../units.ts';
import { idOf } from '../figures/id-of.ts';
import { parseMass } from '../figures/mass.ts';
import { type DecimalMark, parseNumber, withMark } from '../figures/number.ts';
import type { TypedMass } from '../parts/number-field.tsx';
import type { PlantSettings } from './plant-types.ts';

/** The plant as it stands in the fields of a form, and back to what the service takes. */

export interface TypedScale {
  /** Empty for a new one: its name makes it. */
  readonly id: string;
  readonly name: string;
  readonly unit: MassUnit;
  readonly division: string;
  readonly capacity: string;
}

export interface TypedPlant {
  readonly name: string;
  readonly establishment: string;
  /** A line for each line of the label. */
  readonly address: string;
  readonly jurisdiction: string;
  readonly currency: string;
  readonly units: 'lb' | 'kg';
  readonly timeZone: string;
  readonly mixer: TypedMass;
  readonly scales: readonly TypedScale[];
  readonly paper: string;
  readonly language: string;
  readonly labelStock: string;
  readonly priceCode: 'none' | 'five digits' | 'four digits';
}

export function typedPlant(settings: PlantSettings, mark: DecimalMark): TypedPlant {
  const { name, establishment, jurisdiction, currency, units, timeZone, printing = {} } = settings;
  const { paper = '', language = '', labelStock = '', priceCode } = printing;
  const { value, unit } = settings.mixerCapacity;
  return {
    name,
    establishment,
    address: (settings.address ?? []).join('\n'),
    jurisdiction,
    currency,
    units,
    timeZone,
    mixer: { text: withMark(String(value), mark), unit: unit as MassUnit },
    scales: settings.scales.map((scale) => ({
      id: scale.id,
      name: scale.name,
      unit: scale.unit as MassUnit,
      division: withMark(scale.division, mark),
      capacity: withMark(String(scale.capacity), mark),
    })),
    paper,
    language,
    labelStock,
    priceCode: !priceCode ? 'none' : priceCode.priceVerifier ? 'four digits' : 'five digits',
  };
}

/** What cannot be read as a number goes as it was typed: the service then says what is wrong with it. */
export function plantSettings(typed: TypedPlant, mark: DecimalMark): PlantSettings {
  const { name, establishment, jurisdiction, currency, units, timeZone } = typed;
  const { paper, language, labelStock, priceCode } = typed;
  const mixer = parseMass(typed.mixer.text, typed.mixer.unit, mark);
  const address = typed.address
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
  const printing = {
    ...(paper !== '' && { paper }),
    ...(language !== '' && { language }),
    ...(labelStock !== '' && { labelStock }),
    ...(priceCode !== 'none' && {
      priceCode: { numberSystem: '2', priceVerifier: priceCode === 'four digits' },
    }),
  } as NonNullable<PlantSettings['printing']>;
  const ids = scaleIds(typed.scales);
  return {
    name: name.trim(),
    establishment: establishment.trim(),
    ...(address.length > 0 && { address }),
    jurisdiction,
    currency,
    units,
    timeZone,
    mixerCapacity:
      mixer.kind === 'mass'
        ? { value: mixer.value, unit: mixer.unit }
        : { value: typed.mixer.text, unit: typed.mixer.unit },
    scales: typed.scales.map(({ name: called, unit, division, capacity }, index) => ({
      id: ids[index] ?? '',
      name: called.trim(),
      unit,
      division: digitsOf(division, mark) ?? division,
      capacity: numberOf(capacity, mark) ?? capacity,
    })),
    ...(Object.keys(printing).length > 0 && { printing }),
  };
}

/** What is typed over what stands, and what the form does not show as it stands. */
export function replacedSettings(stands: PlantSettings, typed: TypedPlant, mark: DecimalMark): PlantSettings {
  const { address: _, printing: __, ...rest } = stands;
  return { ...rest, ...plantSettings(typed, mark) };
}

function digitsOf(text: string, mark: DecimalMark): string | undefined {
  const parsed = parseNumber(text, mark);
  return parsed.kind === 'number' ? parsed.text : undefined;
}

function numberOf(text: string, mark: DecimalMark): number | undefined {
  const parsed = parseNumber(text, mark);
  return parsed.kind === 'number' ? parsed.value : undefined;
}

/** Ids of scales stay; a new one gets its own of its name. */
export function scaleIds(scales: readonly Pick<TypedScale, 'id' | 'name'>[]): string[] {
  const taken = new Set(scales.map(({ id }) => id).filter((id) => id !== ''));
  return scales.map(({ id, name }) => {
    if (id !== '') return id;
    const start = idOf(name) || 'scale';
    let own = start;
    for (let number = 2; taken.has(own); number += 1) own = `${start}-${number}`;
    taken.add(own);
    return own;
  });
}

/** Names of the fields in which two states of the form differ. */
export function differing(one: TypedPlant, other: TypedPlant): (keyof TypedPlant)[] {
  return (Object.keys(one) as (keyof TypedPlant)[]).filter(
    (field) => JSON.stringify(one[field]) !== JSON.stringify(other[field]),
  );
}
