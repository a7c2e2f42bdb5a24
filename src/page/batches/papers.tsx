import { useState } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { OneOf } from '../parts/choice.tsx';
import { ProblemNotice } from '../parts/notice.tsx';
import { queryOf } from '../service/ask.ts';
import { usePapers } from '../service/papers.ts';
import { useDevice } from '../shell/device.ts';
import { useHere } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import { Part } from './part.tsx';
import { BATCHES } from './words.ts';

/** The sheet and the label of a batch, to print. */
export function Papers({ id }: { readonly id: string }) {
  const t = useWords(BATCHES);
  const { plant } = useHere();
  const [language, setLanguage] = useState<string>(useDevice().language);
  const [paper, setPaper] = useState<string>(plant.printing?.paper ?? 'letter');
  const { show, isFetching, error } = usePapers();
  return (
    <Part title={t.papers}>
      <div class="row wrap batch-choices">
        <OneOf
          label={t.paperLanguage}
          value={language}
          onValue={setLanguage}
          options={[
            { value: 'en', says: 'English' },
            { value: 'es', says: 'Español' },
          ]}
        />
        <OneOf
          label={t.paperSize}
          value={paper}
          onValue={setPaper}
          options={[
            { value: 'letter', says: 'Letter' },
            { value: 'a4', says: 'A4' },
          ]}
        />
      </div>
      <div class="row wrap">
        <Button
          isBusy={isFetching}
          onClick={() => void show({ path: `/batches/${id}/sheet${queryOf({ paper, language })}` })}
        >
          {t.sheet}
        </Button>
        <Button
          isBusy={isFetching}
          onClick={() => void show({ path: `/batches/${id}/label${queryOf({ paper })}` })}
        >
          {t.label}
        </Button>
      </div>
      <ProblemNotice error={error} />
    </Part>
  );
}
