/** A pot of the demo as a drawing: its form, its glazes, its fault. Made up; it says so on itself. */
import { Chance } from '../chance.ts';
import { BENCH, clayColour, glazeColour, INK, mixed, WALL } from './colours.ts';
import { fault, label } from './marks.ts';
import { type Box, type Shape, shapeOf, wallOf } from './shapes.ts';

export interface Drawing {
  /** Small differences between two of a kind come from it. */
  readonly seed: string;
  readonly form: string;
  readonly clay: string;
  /** mm. */
  readonly size: { readonly width: number; readonly height: number };
  /** Handles of the layers by zone, the first one lowest. */
  readonly glazes: Readonly<Record<string, readonly string[]>>;
  /** Before its glaze firing. */
  readonly raw: boolean;
  readonly fault?: string;
}

/** Of the drawing's own measures, and of the picture in pixels: a strip shows no more. */
const SIDE = 640;
const PIXELS = 480;
const FLOOR = 540;
const MOST = { width: 360, height: 370 };

function boxOf(shape: Shape, { width, height }: Drawing['size']): Box {
  const scale = Math.min(MOST.width / width, MOST.height / height);
  const box = { width: width * scale, height: Math.max(60, height * scale) };
  return { ...box, x: SIDE / 2, y: (shape.kind === 'flat' ? FLOOR - 40 : FLOOR) - box.height };
}

interface Colours {
  readonly clay: string;
  readonly glaze: string;
  readonly under: string;
  readonly inside: string;
  readonly lid: string;
}

function coloursOf({ clay, glazes, raw }: Drawing): Colours {
  const bare = clayColour(clay);
  const top = (zone: string) => glazes[zone]?.at(-1);
  const colour = (glaze: string | undefined, otherwise: string) =>
    glaze === undefined ? otherwise : glazeColour(glaze, raw);
  const shows = top('outside') ?? top('inside');
  const glaze = colour(shows, bare);
  const first = (glazes.outside ?? glazes.inside ?? []).at(-2);
  return {
    clay: bare,
    glaze,
    under: first === undefined ? glaze : mixed(colour(first, bare), glaze, 0.45),
    inside: colour(top('inside'), bare),
    lid: colour(top('lid'), glaze),
  };
}

const stroke = `stroke="${INK}" stroke-width="3.5" stroke-linejoin="round"`;
const n = (value: number): string => value.toFixed(1);

/** Light from the left, and hatching on the right, as one shades with a pen. */
function shaded(wall: string, { x, y, width, height }: Box, chance: Chance): string {
  const lines = Array.from({ length: 16 }, (_, k) => {
    const at = x + width * (0.14 + k * 0.028);
    return `M${n(at)} ${n(y + height * 0.06 + chance.between(0, 12))}l${n(-height * 0.16)} ${n(height * 0.9)}`;
  });
  return `<clipPath id="wall"><path d="${wall}"/></clipPath>
    <g clip-path="url(#wall)"><rect x="${n(x - width / 2)}" y="${n(y)}" width="${n(width * 0.18)}" height="${n(height)}" fill="#fff" opacity="0.22"/>
    <path d="${lines.join('')}" fill="none" stroke="${INK}" stroke-width="1.3" opacity="0.4"/></g>`;
}

function handle({ x, y, width, height }: Box, colour: string): string {
  const [at, top] = [x + width * 0.46, y + height * 0.18];
  const d = `M${n(at)} ${n(top)}c${n(width * 0.42)} ${n(-height * 0.06)} ${n(width * 0.4)} ${n(height * 0.56)} ${n(-width * 0.02)} ${n(height * 0.52)}`;
  return `<path d="${d}" fill="none" stroke="${INK}" stroke-width="27" stroke-linecap="round"/><path d="${d}" fill="none" stroke="${colour}" stroke-width="20" stroke-linecap="round"/>`;
}

function spout({ x, y, width, height }: Box, colour: string): string {
  const [at, top] = [x - width * 0.4, y + height * 0.04];
  return `<path d="M${n(at)} ${n(top + height * 0.4)}L${n(at - width * 0.22)} ${n(top)}L${n(at + width * 0.12)} ${n(top + height * 0.16)}Z" fill="${colour}" ${stroke}/>`;
}

function lid(rim: number, { x, y }: Box, colour: string): string {
  return `<path d="M${n(x - rim)} ${n(y + 4)}Q${x} ${n(y - rim * 0.62)} ${n(x + rim)} ${n(y + 4)}Z" fill="${colour}" ${stroke}/><circle cx="${x}" cy="${n(y - rim * 0.36)}" r="13" fill="${colour}" ${stroke}/>`;
}

function turned(drawing: Drawing, shape: Shape, box: Box, colours: Colours, chance: Chance): string {
  const { x, y, width, height } = box;
  const wall = wallOf(shape, box);
  const rim = (shape.profile[0]![0] * width) / 2;
  const bareFrom = y + height * 0.93;
  return `
    ${shape.handle ? handle(box, colours.glaze) : ''}${shape.spout ? spout(box, colours.glaze) : ''}
    <path d="${wall}" fill="${colours.glaze}"/>${shaded(wall, box, chance)}
    <g clip-path="url(#wall)">
      <rect x="${n(x - width)}" y="${n(y)}" width="${n(width * 2)}" height="${n(height * 0.34)}" fill="${colours.under}" opacity="0.9"/>
      <rect x="${n(x - width)}" y="${n(bareFrom)}" width="${n(width * 2)}" height="${n(height)}" fill="${colours.clay}"/>
    </g>
    <path d="${wall}" fill="none" ${stroke}/>
    ${shape.kind === 'turned' ? `<ellipse cx="${x}" cy="${n(y)}" rx="${n(rim)}" ry="${n(rim * 0.2)}" fill="${colours.inside}" ${stroke}/>` : ''}
    ${shape.lid ? lid(rim, box, colours.lid) : ''}
    ${drawing.fault ? onWall(drawing.fault, fault(drawing.fault, chance, box, colours)) : ''}`;
}

/** Only a run goes past the foot. */
const onWall = (kind: string, marks: string): string =>
  kind === 'runs' || kind === 'stuck' ? marks : `<g clip-path="url(#wall)">${marks}</g>`;

/** Seen from above, a little aslant. */
function plate(drawing: Drawing, colours: Colours, chance: Chance): string {
  const at = { x: SIDE / 2, y: 360 };
  const ring = (rx: number, ry: number, fill: string) =>
    `<ellipse cx="${at.x}" cy="${at.y}" rx="${rx}" ry="${ry}" fill="${fill}" ${stroke}/>`;
  const well: Box = { x: at.x, y: at.y - 80, width: 300, height: 170 };
  return `<ellipse cx="${at.x}" cy="${at.y + 22}" rx="240" ry="138" fill="${colours.clay}" ${stroke}/>
    ${ring(240, 138, colours.inside)}${ring(165, 90, mixed(colours.inside, colours.under, 0.5))}
    ${drawing.fault ? fault(drawing.fault, chance, well, colours) : ''}`;
}

/** @returns SVG, PIXELS square */
export function drawn(drawing: Drawing): string {
  const chance = new Chance(drawing.seed);
  const shape = shapeOf(drawing.form);
  const colours = coloursOf(drawing);
  const pot =
    shape.kind === 'plate'
      ? plate(drawing, colours, chance)
      : turned(drawing, shape, boxOf(shape, drawing.size), colours, chance);
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${PIXELS}" height="${PIXELS}" viewBox="0 0 ${SIDE} ${SIDE}">
    <rect width="${SIDE}" height="${SIDE}" fill="${WALL}"/>
    <rect y="470" width="${SIDE}" height="${SIDE - 470}" fill="${BENCH}"/>
    <ellipse cx="${SIDE / 2 + 20}" cy="${FLOOR}" rx="190" ry="20" fill="${INK}" opacity="0.16"/>
    ${pot}${label(24, SIDE - 42)}</svg>`;
}
