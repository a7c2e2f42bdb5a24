/** What a person writes to set a record right, and what is sent of it. */

export interface TypedCorrection {
  readonly reason: string;
  readonly wrong: string;
  readonly right: string;
  /** Of a cleaning: what it should say; '' where that was right. */
  readonly equipment: string;
  readonly what: '' | 'cleaned' | 'cleaned and sanitized';
  /** By the plant's clock, YYYY-MM-DDTHH:MM. */
  readonly at: string;
  readonly isWithdrawn: boolean;
}

export const NO_CORRECTION: TypedCorrection = {
  reason: '',
  wrong: '',
  right: '',
  equipment: '',
  what: '',
  at: '',
  isWithdrawn: false,
};

/** Names of equipment as they are typed: 'grinder, mixer'. */
export const equipmentOf = (typed: string) =>
  typed
    .split(/[,;\n]/)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== '');

/**
 * The body of a correction; undefined while what was wrong or what is right is not said.
 * @param says both in one text, in the language of the person.
 */
export function correctionBody(
  typed: TypedCorrection,
  isCleaning: boolean,
  says: (wrong: string, right: string) => string,
) {
  const [wrong, right] = [typed.wrong.trim(), typed.right.trim()];
  if (wrong === '' || right === '') return undefined;
  const equipment = equipmentOf(typed.equipment);
  const fields = {
    ...(equipment.length > 0 && { equipment }),
    ...(typed.what !== '' && { what: typed.what }),
    ...(typed.at !== '' && { at: typed.at }),
    ...(typed.isWithdrawn && { withdrawn: true }),
  };
  return {
    reason: typed.reason.trim(),
    corrects: says(wrong, right),
    ...(isCleaning && Object.keys(fields).length > 0 && { fields }),
  };
}
