/** Names of the fields that differ between two states, for the audit. */
export function changedFields(before: object, after: object): string {
  const was = new Map<string, unknown>(Object.entries(before));
  const is = new Map<string, unknown>(Object.entries(after));
  const differs = [...new Set([...was.keys(), ...is.keys()])].filter(
    (key) => JSON.stringify(was.get(key)) !== JSON.stringify(is.get(key)),
  );
  return differs.join(', ') || 'nothing';
}
