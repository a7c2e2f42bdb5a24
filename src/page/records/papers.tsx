import { Button } from '../parts/button.tsx';
import { ProblemNotice } from '../parts/notice.tsx';
import { usePapers } from '../service/papers.ts';
import { useWords } from '../words/words.ts';
import { RECORDS } from './words.ts';

/** What can be had on paper, and as a table for a spreadsheet where that is offered. */
export function PaperButtons({
  path,
  says,
  csv,
}: {
  /** Below /v1, with its query. */
  readonly path: string;
  /** What it is, where it is not the very thing that is shown. */
  readonly says?: string;
  /** Name that the table is saved under. */
  readonly csv?: string;
}) {
  const t = useWords(RECORDS);
  const { show, isFetching, error } = usePapers();
  return (
    <>
      <div class="row wrap">
        <Button isBusy={isFetching} onClick={() => void show({ path })}>
          {says ?? t.pdf}
        </Button>
        {csv !== undefined && (
          <Button
            isBusy={isFetching}
            onClick={() => void show({ path, type: 'text/csv', saveAs: `${csv}.csv` })}
          >
            {t.csv}
          </Button>
        )}
      </div>
      <ProblemNotice error={error} />
    </>
  );
}
