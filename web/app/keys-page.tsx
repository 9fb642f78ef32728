import { useState } from 'preact/hooks';
import { keys as words } from '../words/keys.ts';
import { keysOn, setKeysOn } from './keys.ts';
import { Page } from './page.tsx';

const List = ({
  title,
  rows,
}: {
  readonly title: string;
  readonly rows: readonly (readonly [string, string])[];
}) => (
  <section class="part">
    <h2>{title}</h2>
    <table>
      <tbody>
        {rows.map(([key, what]) => (
          <tr key={key}>
            <th scope="row">{key}</th>
            <td>{what}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </section>
);

/** What the keyboard does, and how to switch it off. */
export default function Keys() {
  const [on, setOn] = useState(keysOn());
  return (
    <Page title={words.title}>
      <p class="lead">{words.lead}</p>
      <List title={words.anywhere} rows={words.list} />
      <List title={words.kiln} rows={words.kilnList} />
      <section class="part">
        <h2>{words.on}</h2>
        <p class="hint">{words.onHint}</p>
        <label class="tick">
          <input
            type="checkbox"
            checked={on}
            onChange={(event) => {
              setOn(event.currentTarget.checked);
              setKeysOn(event.currentTarget.checked);
            }}
          />
          {words.switch}
        </label>
      </section>
    </Page>
  );
}
