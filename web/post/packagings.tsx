import { useState } from 'preact/hooks';
import { handleOf } from '../../server/contract/studio/values.ts';
import { TextField } from '../parts/field.tsx';
import { item } from '../words/items.ts';
import { parcel } from '../words/parcels.ts';
import { shop as words } from '../words/shop.ts';
import { Do, RecordForm } from './record-form.tsx';
import type { Packaging } from './types.ts';

const blank = { name: '', weight: '', length: '', width: '', thickness: '' };

/** Bags, tubes and boxes, with what each weighs and measures. */
export function Packagings({ packagings }: { readonly packagings: readonly Packaging[] }) {
  const [draft, setDraft] = useState(blank);
  const set = (field: keyof typeof blank) => (value: string) => setDraft({ ...draft, [field]: value });
  const others = (gone: string) => packagings.filter(({ id }) => id !== gone);
  const wish = () => {
    const id = handleOf(draft.name);
    const weight = Math.round(Number(draft.weight));
    if (!id || !(weight > 0)) return { missing: words.packagingWeight };
    const [length, width, thickness] = [draft.length, draft.width, draft.thickness].map(Number);
    const size = length! > 0 && width! > 0 && thickness! > 0 ? { size: { length, width, thickness } } : {};
    const one = { id, name: draft.name.trim(), weight, ...size };
    return {
      wishes: [{ command: 'shop.set', input: { packagings: [...others(id), one] } }],
      sentence: words.saved,
    };
  };
  const number = { min: 0, inputMode: 'decimal', step: 'any' };
  return (
    <>
      <ul class="ledger plain-ledger">
        {packagings.map(({ id, name, weight, size }) => (
          <li key={id}>
            <div class="line">
              <p class="first-line">
                <strong>{name}</strong>
                <span>
                  {parcel.grams(weight)}
                  {size && `, ${parcel.mm(size.length, size.width, size.thickness)}`}
                </span>
              </p>
              <details class="no-paper">
                <summary>{words.remove(name)}</summary>
                <p class="buttons">
                  <Do
                    label={words.remove(name)}
                    wish={{ command: 'shop.set', input: { packagings: others(id) } }}
                    sentence={words.saved}
                  />
                </p>
              </details>
            </div>
          </li>
        ))}
      </ul>
      <details class="no-paper">
        <summary>{words.addPackaging}</summary>
        <RecordForm now submit={words.addPackaging} wish={wish} onDone={() => setDraft(blank)}>
          <div class="side-by-side">
            <TextField label={words.packagingName} value={draft.name} onValue={set('name')} />
            <TextField
              label={words.packagingWeight}
              type="number"
              value={draft.weight}
              onValue={set('weight')}
              input={number}
            />
          </div>
          <p class="hint">{words.packagingSize}</p>
          <div class="side-by-side">
            {(['length', 'width', 'thickness'] as const).map((field) => (
              <TextField
                key={field}
                label={item[field]}
                type="number"
                value={draft[field]}
                onValue={set(field)}
                optional
                input={number}
              />
            ))}
          </div>
        </RecordForm>
      </details>
    </>
  );
}
