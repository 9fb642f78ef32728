/**
 * `node --import tsx tests/bench/papers.ts`: how long sets of templates take from measures to a finished file, and how
 * large they are. The time of the processor is told beside the clock's: on a busy machine the clock tells of the others.
 */
import { drawTemplate } from '../../plugins/template-sheets/drawing/draw-template.ts';
import { templateFor } from '../../plugins/template-sheets/template.ts';
import { drawPaper } from '../../server/paper/draw.ts';
import { median } from './measure.ts';

const WORDS = {
  maker: 'Hollin Yard Pottery',
  licence: 'For pots you make by hand.',
  howTo: 'Roll the slab 6 mm thick. Bevel, score and join the seam.',
};
const VASE = {
  form: 'frustum',
  bottom: 120,
  top: 200,
  height: 150,
  shrinkage: 0.12,
  seam: 8,
  base: true,
  name: 'Vase',
};
const JUG = {
  form: 'polygon',
  sides: 6,
  bottomSide: 60,
  topSide: 45,
  height: 220,
  thickness: 5,
  base: true,
  name: 'Jug',
};
const BOWL = { form: 'bowl', rim: 300, depth: 110, darts: 12, foot: 90, thickness: 6, name: 'Bowl' };
const SETS = [
  ['frustum', VASE, 'A4'],
  ['frustum', VASE, 'Letter'],
  ['frustum', VASE, 'A3'],
  ['six-sided jug', JUG, 'A4'],
  ['bowl with darts', BOWL, 'A4'],
  [
    'three sizes of a jug',
    { ...JUG, sizes: [0.6, 0.8, 1].map((scale) => ({ name: `${scale}`, scale })) },
    'A4',
  ],
] as const;
const TURNS = 15;

async function once(spec: unknown, paper: string) {
  const [clock, processor] = [performance.now(), process.cpuUsage()];
  const template = templateFor(spec, paper);
  if ('wrong' in template) throw new Error(template.wrong.join(' '));
  const pdf = await drawPaper(drawTemplate(template, WORDS), { studio: WORDS.maker, day: '2026-05-01' });
  const { user, system } = process.cpuUsage(processor);
  const pages = template.sheets.sheets.length + 1;
  return { pages, bytes: pdf.length, clock: performance.now() - clock, processor: (user + system) / 1_000 };
}

console.log('| set | paper | pages | kB | first, ms | then, ms (median) | processor, ms | aim |');
console.log('|---|---|--:|--:|--:|--:|--:|---|');
for (const [name, spec, paper] of SETS) {
  const first = await once(spec, paper);
  const later = [];
  for (let turn = 0; turn < TURNS; turn++) later.push(await once(spec, paper));
  const clock = median(later.map((it) => it.clock));
  const processor = median(later.map((it) => it.processor));
  const aim = clock < 300 && first.bytes < 300_000 ? 'reached' : '**not reached**';
  const cells = [
    name,
    paper,
    first.pages,
    (first.bytes / 1_000).toFixed(0),
    first.clock.toFixed(0),
    clock.toFixed(0),
    processor.toFixed(0),
    aim,
  ];
  console.log(`| ${cells.join(' | ')} |`);
}
