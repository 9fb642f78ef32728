import { useState } from 'preact/hooks';
import { beginsAsPdf, DOCUMENT_TYPE, endsAsPdf, LARGEST_DOCUMENT } from '../../server/contract/document.ts';
import type { Problem } from '../api/client.ts';
import { record } from '../api/orders.ts';
import { Field } from '../parts/field.tsx';
import { ProblemSaid } from '../parts/problem.tsx';
import { handouts as words } from '../words/handouts.ts';
import { findPaper, usePapers } from './of-paper.ts';
import type { ItemFacts } from './types.ts';

interface Props {
  readonly item: string;
  readonly facts: ItemFacts;
  /** What its file was called when it came in. */
  readonly called?: string;
}

/** What a file or a printed template comes from: a template that is kept, or a PDF. */
export function Source({ item, facts, called }: Props) {
  const papers = usePapers().answer?.papers;
  const isFile = facts.kind === 'download';
  const paper = findPaper(papers, facts.paper);
  return (
    <section class="part">
      <h2>{isFile ? words.source : words.sourceTemplate}</h2>
      {facts.paper ? (
        <p>
          {words.fromTemplate}{' '}
          <a href={paper?.to ?? '/templates'}>{paper?.title ?? Object.values(facts.paper.input).join(' ')}</a>
          .
        </p>
      ) : facts.file ? (
        <p>
          {words.fromFile}{' '}
          <a href={`/api/files/${facts.file}`} download={called ?? `${facts.name}.pdf`}>
            {called ?? `${facts.name}.pdf`}
          </a>
        </p>
      ) : (
        <p>{isFile ? words.none : words.noneTemplate}</p>
      )}
      {isFile && (
        <Upload
          item={item}
          label={facts.paper ? words.insteadFile : facts.file ? words.newFile : words.file}
        />
      )}
    </section>
  );
}

async function read(file: File): Promise<{ sha256: string; blob: Blob } | { wrong: string }> {
  if (file.size > LARGEST_DOCUMENT) return { wrong: words.tooLarge };
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (!beginsAsPdf(bytes) || !endsAsPdf(bytes)) return { wrong: words.notPdf };
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  const sha256 = Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return { sha256, blob: new Blob([bytes], { type: DOCUMENT_TYPE }) };
}

function Upload({ item, label }: { readonly item: string; readonly label: string }) {
  const [busy, setBusy] = useState(false);
  const [wrong, setWrong] = useState<string>();
  const [problem, setProblem] = useState<Problem>();
  const give = async (file: File) => {
    setWrong(undefined);
    setProblem(undefined);
    const found = await read(file);
    if ('wrong' in found) return setWrong(found.wrong);
    const input = { item, file: found.sha256, called: file.name.slice(0, 200) };
    const wish = { command: 'item.give-file', input, files: [found] };
    setProblem((await record([wish], words.fileDone)).problem);
  };
  const chosen = (event: Event) => {
    const input = event.currentTarget as HTMLInputElement;
    const file = input.files?.[0];
    if (!file) return;
    setBusy(true);
    // The same one may be chosen again.
    void give(file).finally(() => {
      setBusy(false);
      input.value = '';
    });
  };
  return (
    <div class="no-paper">
      <Field label={label} hint={words.fileHint} wrong={wrong}>
        {(attributes) => (
          <input
            {...attributes}
            type="file"
            accept=".pdf,application/pdf"
            disabled={busy}
            onChange={chosen}
          />
        )}
      </Field>
      <p role="status" class={busy ? 'waiting' : 'unseen'}>
        {busy ? words.sending : ''}
      </p>
      {problem && <ProblemSaid problem={problem} />}
    </div>
  );
}
