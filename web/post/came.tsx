import { noteText } from '../api/studio.ts';
import { listText } from '../words/numbers.ts';
import { order as words } from '../words/orders.ts';
import { post } from '../words/post.ts';
import { Do } from './record-form.tsx';
import type { Came } from './types.ts';

const linesText = (lines: Came['linesWere']): string =>
  listText(lines.map(({ quantity, name }) => post.line(quantity, name)));

/** What the shop says otherwise, beside what stands here: the user says which holds. */
export function CameToLook({ order, came }: { readonly order: string; readonly came: Came }) {
  return (
    <section class="part no-paper">
      <h2>{words.came}</h2>
      {came.cancelled ? (
        <p>{words.cameCancelled}</p>
      ) : (
        <table class="came">
          <thead>
            <tr>
              <td />
              <th scope="col">{words.was}</th>
              <th scope="col">{words.now}</th>
            </tr>
          </thead>
          <tbody>
            {came.fields.map(({ field, was, now }) => (
              <tr key={field}>
                <th scope="row">{words.fields[field] ?? field}</th>
                <td class="address">{noteText(was)}</td>
                <td class="address">{noteText(now)}</td>
              </tr>
            ))}
            {came.postage && (
              <tr>
                <th scope="row">{words.fields.postage}</th>
                <td>{came.postageWas}</td>
                <td>{came.postage}</td>
              </tr>
            )}
            {came.lines && (
              <tr>
                <th scope="row">{words.fields.lines}</th>
                <td>{linesText(came.linesWere)}</td>
                <td>{linesText(came.lines)}</td>
              </tr>
            )}
          </tbody>
        </table>
      )}
      <p class="buttons">
        <Do
          main
          label={words.accept}
          wish={{ command: 'order.accept-change', input: { order } }}
          sentence={words.accepted}
        />
        <Do
          label={words.decline}
          wish={{ command: 'order.decline-change', input: { order } }}
          sentence={words.declined}
        />
      </p>
    </section>
  );
}
