import { useState } from 'preact/hooks';
import { Refused, Unreached } from './ask.ts';

export interface Paper {
  /** Below /v1, with its query: '/batches/12/sheet?paper=a4'. */
  readonly path: string;
  /** Sent where the paper is worked out of a request. */
  readonly body?: unknown;
  /** What it is asked for as; PDF when absent. */
  readonly type?: string;
  /** Saved under this name instead of shown in a tab of its own. */
  readonly saveAs?: string;
}

/** Fetches a paper and shows it in a tab of its own, where the browser prints it. */
export function usePapers(): {
  readonly show: (paper: Paper) => Promise<void>;
  readonly isFetching: boolean;
  readonly error?: Refused | Unreached;
} {
  const [isFetching, setFetching] = useState(false);
  const [error, setError] = useState<Refused | Unreached>();
  const show = async (paper: Paper) => {
    setFetching(true);
    setError(undefined);
    try {
      open(await fetched(paper), paper);
    } catch (caught) {
      if (!(caught instanceof Refused || caught instanceof Unreached)) throw caught;
      setError(caught);
    } finally {
      setFetching(false);
    }
  };
  return { show, isFetching, ...(error && { error }) };
}

async function fetched({ path, body, type = 'application/pdf' }: Paper): Promise<Blob> {
  const response = await fetch(`/v1${path}`, {
    method: body === undefined ? 'GET' : 'POST',
    headers: { accept: type, ...(body !== undefined && { 'content-type': 'application/json' }) },
    ...(body !== undefined && { body: JSON.stringify(body) }),
  }).catch(() => undefined);
  if (!response) throw new Unreached();
  if (response.ok) return response.blob();
  const problem = await response.json().catch(() => undefined);
  if (problem === undefined) throw new Unreached();
  throw new Refused(problem);
}

/** How long a tab that was opened may take to read it. */
const READ_WITHIN_MS = 60_000;

function open(blob: Blob, { saveAs }: Paper): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  if (saveAs === undefined) link.target = '_blank';
  else link.download = saveAs;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), READ_WITHIN_MS);
}
