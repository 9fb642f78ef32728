import './guide.css';
import { useState } from 'preact/hooks';
import { reportAddress } from '../api/client.ts';
import { useOffered } from '../api/plugins.ts';
import { useAddress } from '../api/use-report.ts';
import { Shown } from '../parts/asked.tsx';
import { guide as words } from '../words/guide.ts';
import { GUIDE, type GuideAnswer, guideAddress, linesOf } from './guide-answer.ts';
import { Tries } from './guide-parts.tsx';

/** A fault's guide in short, opened in place: nothing that was filled in beside it is lost. */
export function GuideHere({ fault, name }: { readonly fault: string; readonly name: string }) {
  const [open, setOpen] = useState(false);
  const offered = useOffered(GUIDE);
  const asked = useAddress<GuideAnswer>(open ? reportAddress(GUIDE, { fault }) : undefined);
  if (!offered) return null;
  return (
    <details class="guide-here" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{words.known(name)}</summary>
      {open && (
        <Shown of={asked}>
          {(answer) => (
            <>
              <p>{answer.more.seen}</p>
              <p>
                <strong>{answer.more.record}</strong>
              </p>
              <Tries answer={answer} />
              {linesOf(answer, 'caution').map((row) => (
                <p key={String(row.key)} class="small">
                  {String(row.label)}
                </p>
              ))}
              <p>
                <a href={guideAddress(fault)} target="_blank" rel="noreferrer">
                  {words.more(name)}
                </a>
              </p>
            </>
          )}
        </Shown>
      )}
    </details>
  );
}
