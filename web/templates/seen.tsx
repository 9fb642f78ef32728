import type { TemplateMade } from '../../plugins/template-sheets/template.ts';
import { templates as words } from '../words/templates.ts';
import { Flat, Round } from './pictures.tsx';

/** The pot, its pieces, and what was looked at; or why it cannot be. */
export function Seen({ made }: { readonly made: TemplateMade }) {
  if ('wrong' in made) return <Said lines={made.wrong.map(words.asLabelled)} alarm />;
  const { spec, sheets } = made;
  const failed = sheets.checks.filter(({ passed }) => !passed);
  return (
    <>
      <div class="template-seen">
        {spec.form !== 'drawing' && <Round spec={spec} />}
        <Flat pieces={made.made.pieces} />
      </div>
      {failed.length > 0 && (
        <Said title={words.looked} lines={failed.map(({ sentence }) => sentence)} alarm />
      )}
      <details>
        <summary>
          {words.checks}: {words.pages(sheets.sheets.length, sheets.page.paper.name)}
        </summary>
        <ul>
          {sheets.checks.map(({ passed, sentence }) => (
            <li key={sentence}>
              {passed ? words.holds : words.fails} {sentence}
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}

interface SaidProps {
  readonly title?: string;
  readonly lines: readonly string[];
  readonly alarm?: boolean;
}

export const Said = ({ title, lines, alarm }: SaidProps) => (
  <div role={alarm ? 'alert' : undefined} class={alarm ? 'wrong' : undefined}>
    {title && <p>{title}</p>}
    <ul>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  </div>
);
