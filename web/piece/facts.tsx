import type { ComponentChildren } from 'preact';
import { useOffered } from '../api/plugins.ts';
import { nameText, type PieceMore, type PieceRow } from '../api/studio.ts';
import { useMaterials } from '../api/use-materials.ts';
import { FaultMark } from '../drawings/fault-mark.tsx';
import { GUIDE, guideAddress } from '../guide/guide-answer.ts';
import { Mark } from '../parts/mark.tsx';
import { titleOf } from '../ware/ware-list.tsx';
import { dayText, moneyText } from '../words/numbers.ts';
import { piece as words } from '../words/piece.ts';
import { gradeNames, howNames, named, ownerNames, roleNames, stageNames } from '../words/trade.ts';
import { Glazed } from './glazed.tsx';

interface Props {
  readonly piece: PieceRow;
  readonly siblings: NonNullable<PieceMore['siblings']>;
}

const Fact = ({ name, children }: { readonly name: string; readonly children: ComponentChildren }) => (
  <>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </>
);

/** A fault leads to its guide, where there is one. */
function FaultName(of: { readonly kind: string; readonly piece: string; readonly name: string }) {
  if (!useOffered(GUIDE)) return <span>{of.name}</span>;
  return <a href={guideAddress(of.kind, of.piece)}>{of.name}</a>;
}

/** How the piece is now: all of it in one list of facts. */
export function Facts({ piece, siblings }: Props) {
  const materials = useMaterials();
  const owner = [named(ownerNames, piece.owner.kind), nameText(piece.ownerName)].filter(Boolean).join(': ');
  const { size, price, secondPrice } = piece;
  const prices = [
    price && moneyText(price.amount, price.currency),
    secondPrice && words.asSecond(moneyText(secondPrice.amount, secondPrice.currency)),
  ];
  return (
    <section class="part">
      <h2>{words.facts}</h2>
      <dl class="facts">
        {piece.clayName && <Fact name={words.clay}>{piece.clayName}</Fact>}
        {piece.how && <Fact name={words.how}>{named(howNames, piece.how)}</Fact>}
        <Fact name={words.whose}>{owner}</Fact>
        {size && (
          <Fact name={words.size}>{words.sizeText(size.width, size.height, size.depth, size.measured)}</Fact>
        )}
        {prices.some(Boolean) && <Fact name={words.price}>{prices.filter(Boolean).join(', ')}</Fact>}
        {piece.passages.length > 0 && (
          <Fact name={words.firings}>
            {piece.passages.map((passage) => (
              <p key={passage.seq}>
                <a href={`/kilns/${encodeURIComponent(passage.firing)}`}>
                  {passage.label ?? passage.kilnName}
                </a>
                <span class="soft">
                  {' '}
                  {[
                    roleNames[passage.role],
                    passage.scheduleName,
                    passage.shelf && words.shelf(passage.shelf),
                    dayText(passage.endedAt ?? passage.litAt ?? passage.packedAt),
                  ]
                    .filter(Boolean)
                    .join(', ')}
                </span>
              </p>
            ))}
          </Fact>
        )}
        {piece.faults.length > 0 && (
          <Fact name={words.faults}>
            {piece.faults.map((fault) => (
              <p key={fault.seq}>
                <FaultMark kind={fault.kind} />{' '}
                <FaultName kind={fault.kind} piece={piece.piece} name={materials.name('fault', fault.kind)} />
                <span class="soft">
                  {' '}
                  {[
                    fault.zone && materials.name('zone', fault.zone),
                    piece.count > 1 && words.onPieces(fault.count),
                  ]
                    .filter(Boolean)
                    .join(', ')}
                </span>
              </p>
            ))}
          </Fact>
        )}
        {piece.repairs.length > 0 && (
          <Fact name={words.repairs}>
            {piece.repairs.map((repair) => {
              const said = repair.state === 'done' ? words.repairDone : words.repairDecided;
              return (
                <p key={repair.seq}>
                  {said(
                    materials.name('repair', repair.method),
                    repair.fault && materials.name('fault', repair.fault),
                  )}
                </p>
              );
            })}
          </Fact>
        )}
      </dl>
      <Glazed glazings={piece.glazings} names={piece.glazeNames} faults={piece.faults} />
      {siblings.length > 0 && (
        <div class="siblings">
          <h3>{words.siblings}</h3>
          <ul>
            {siblings.map((other) => (
              <li key={other.piece}>
                <a href={`/ware/${encodeURIComponent(other.piece)}`}>
                  <Mark mark={other.mark} /> {titleOf({ count: other.count, form: piece.form ?? null })}
                </a>{' '}
                <span class="soft">{other.grade ? gradeNames[other.grade] : stageNames[other.stage]}</span>
              </li>
            ))}
          </ul>
        </div>
      )}
    </section>
  );
}
