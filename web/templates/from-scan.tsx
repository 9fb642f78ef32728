import { useEffect, useRef, useState } from 'preact/hooks';
import type { Point } from '../../plugins/template-sheets/piece.ts';
import { greyOf } from '../../plugins/template-sheets/scan/grey.ts';
import { readScan } from '../../plugins/template-sheets/scan/read-scan.ts';
import { TextField } from '../parts/field.tsx';
import { templates as words } from '../words/templates.ts';
import { FileField, type OnBrought } from './from-svg.tsx';

/** Longest side that is traced; more only takes longer. */
const LONGEST = 1800;

/** A picture, the four corners of the sheet beside the paper, and the paper's outline. */
export function FromScan({ onBrought }: OnBrought) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [picture, setPicture] = useState<ImageBitmap>();
  const [corners, setCorners] = useState<readonly Point[]>([]);
  const [size, setSize] = useState({ width: '210', height: '297' });
  useEffect(() => draw(canvas.current, picture, corners), [picture, corners]);
  const take = async (file: File) => {
    const whole = await createImageBitmap(file);
    const scale = Math.min(1, LONGEST / Math.max(whole.width, whole.height));
    const options = {
      resizeWidth: Math.round(whole.width * scale),
      resizeQuality: 'high',
    } as const;
    setPicture(scale < 1 ? await createImageBitmap(whole, options) : whole);
    setCorners([]);
  };
  const mark = (event: MouseEvent) => {
    const board = canvas.current!;
    const place = board.getBoundingClientRect();
    const x = ((event.clientX - place.left) * board.width) / place.width;
    const y = ((event.clientY - place.top) * board.height) / place.height;
    if (corners.length < 4) setCorners([...corners, [x, y]]);
  };
  const trace = () => {
    const board = canvas.current!;
    const context = board.getContext('2d')!;
    context.drawImage(picture!, 0, 0);
    const { data } = context.getImageData(0, 0, board.width, board.height);
    const known = {
      corners: corners as [Point, Point, Point, Point],
      width: Number(size.width),
      height: Number(size.height),
    };
    const read = readScan(greyOf(board.width, board.height, data), known);
    draw(board, picture, corners);
    onBrought('wrong' in read ? { said: read.wrong } : { spec: read.spec, said: [] });
  };
  return (
    <>
      <FileField label={words.photo} hint={words.photoHint} accept="image/png,image/jpeg" onFile={take} />
      {picture && (
        <>
          <p>
            {words.corners} <span aria-live="polite">{words.cornersLeft(4 - corners.length)}</span>
          </p>
          <canvas
            ref={canvas}
            class="template-photo"
            width={picture.width}
            height={picture.height}
            onClick={mark}
          />
          <div class="side-by-side">
            {(['width', 'height'] as const).map((side) => (
              <TextField
                key={side}
                label={side === 'width' ? words.sheetWidth : words.sheetHeight}
                type="number"
                value={size[side]}
                onValue={(value) => setSize({ ...size, [side]: value })}
                input={{ min: 1, step: 'any', inputMode: 'decimal' }}
              />
            ))}
          </div>
          <p class="buttons">
            <button type="button" disabled={corners.length < 4} onClick={trace}>
              {words.trace}
            </button>
            <button type="button" onClick={() => setCorners([])}>
              {words.startAgain}
            </button>
          </p>
        </>
      )}
    </>
  );
}

function draw(
  board: HTMLCanvasElement | null,
  picture: ImageBitmap | undefined,
  corners: readonly Point[],
): void {
  const context = board?.getContext('2d');
  if (!board || !context || !picture) return;
  context.drawImage(picture, 0, 0);
  context.lineWidth = Math.max(2, board.width / 400);
  context.strokeStyle = '#a3401a';
  for (const [x, y] of corners) {
    const reach = board.width / 60;
    context.beginPath();
    context.arc(x, y, reach, 0, 2 * Math.PI);
    context.moveTo(x - reach, y);
    context.lineTo(x + reach, y);
    context.moveTo(x, y - reach);
    context.lineTo(x, y + reach);
    context.stroke();
  }
}
