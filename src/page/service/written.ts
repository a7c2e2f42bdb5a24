/** Whoever shows what the books hold is told when this page has written into them. */
const listeners = new Set<() => void>();

/** @returns how to stop. */
export function onWritten(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export function tellWritten(): void {
  for (const listener of listeners) listener();
}
