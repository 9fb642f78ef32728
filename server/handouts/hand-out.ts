/** Looks at what a link leads to, makes the PDF, and records that it was handed out. */
import type { HandoutStanding } from '../contract/handout.ts';
import type { Host, PrintedPaper } from '../host/host.ts';
import { newId } from '../host/ids.ts';
import { idOf } from '../host/look.ts';
import type { Link } from './link.ts';
import { words } from './words.ts';

/** What is not handed out, and why, as a sentence for who asked. */
export class Shut extends Error {
  override readonly name = 'Shut';
  constructor(
    sentence: string,
    /** 403: not an address that was made here. 410: it was, and its time is over. 503: try again. */
    readonly status: 403 | 410 | 503,
  ) {
    super(sentence);
  }
}

export interface Open {
  readonly standing: HandoutStanding;
  /** How often more it can be fetched. */
  readonly left: number;
  /** Sheets that it can be drawn on, the usual first; none where there is no choice. */
  readonly sizes: readonly string[];
  /** In the studio's zone. */
  readonly today: string;
}

type What = Pick<Link, 'plugin' | 'handout' | 'key'>;

/** @throws Shut */
export async function lookAt(host: Host, { plugin, handout, key }: What): Promise<Open> {
  const { standing, today } = await host.handout(plugin, handout, key);
  if (standing === undefined) throw new Shut(words.gone, 410);
  const { until, most, times, withdrawn } = standing;
  if (withdrawn !== undefined) throw new Shut(withdrawn, 410);
  if (today > until) throw new Shut(words.over(until), 410);
  if (times >= most) throw new Shut(words.usedUp(most), 410);
  return { standing, left: most - times, sizes: sizesOf(host, standing), today };
}

const givenOf = (host: Host, { what }: HandoutStanding) =>
  'paper' in what ? host.registry.plugin(what.paper.plugin)?.papers?.[what.paper.paper]?.given : undefined;

export const sizesOf = (host: Host, standing: HandoutStanding): readonly string[] =>
  givenOf(host, standing)?.size?.names ?? [];

/** Name of a file, without what a file system or a header would stumble over. */
const fileName = (title: string): string =>
  `${
    title
      .normalize('NFC')
      .replace(/[^\p{L}\p{N} ._-]+/gu, ' ')
      .trim()
      .slice(0, 80) || 'file'
  }.pdf`;

/**
 * The PDF as whoever it is for gets it, with the order's number on its pages; nothing is recorded.
 * @param day that the file says it was made on
 * @param size one of `sizesOf`; the usual when left out
 * @throws Shut where it is not kept; PaperRefused, UnknownPaper, PaperFailed
 */
export async function pdfOf(
  host: Host,
  standing: HandoutStanding,
  day: string,
  size?: string,
): Promise<PrintedPaper> {
  const { what, order, licence, title } = standing;
  const name = fileName(order === undefined ? title : `${title} ${order}`);
  if ('paper' in what) {
    const { plugin, paper, input } = what.paper;
    const given = givenOf(host, standing);
    const sheet = given?.size && { [given.size.field]: size ?? given.size.names[0]! };
    const number = given?.order !== undefined && order !== undefined ? { [given.order]: order } : {};
    const { pdf } = await host.paper(plugin, paper, { ...input, ...sheet, ...number });
    return { name, pdf };
  }
  const kept = await host.documents.read(what.file);
  if (kept === undefined) throw new Shut(words.lost, 503);
  const { studio } = await host.settings();
  const { stamped } = await import('../paper/stamp.ts');
  return { name, pdf: await stamped(kept, words.stamp(order, licence, studio), { studio, day }) };
}

/**
 * Hands it out: made first and recorded then, so that what could not be made is not counted.
 * @throws Shut
 */
export async function handOut(
  host: Host,
  link: What,
  size: string | undefined,
  now: Date,
): Promise<PrintedPaper> {
  const { standing, sizes, today } = await lookAt(host, link);
  const chosen = size !== undefined && sizes.includes(size) ? size : sizes[0];
  const made = await pdfOf(host, standing, today, chosen);
  const handout = host.registry.plugin(link.plugin)!.handouts![link.handout]!;
  const recording = handout.record(link.key, chosen === undefined ? {} : { size: chosen });
  const id = newId(now);
  const from = { who: 'buyer', device: 'link' };
  const outcome = await host.record({ id, ...recording, ...from });
  if (outcome.outcome === 'refused') throw new Shut(outcome.refusal.sentence, 410);
  await noteOnPaper(host, standing, chosen, id);
  return made;
}

/** The paper's own plugin hears of it as well; that it could not note it changes nothing for who fetched it. */
async function noteOnPaper(
  host: Host,
  standing: HandoutStanding,
  size: string | undefined,
  because: string,
): Promise<void> {
  const given = givenOf(host, standing);
  if (!given?.wentOut || !('paper' in standing.what)) return;
  const { order } = standing;
  const noted = given.wentOut({
    input: standing.what.paper.input,
    ...(size === undefined ? {} : { size }),
    ...(order === undefined ? {} : { order }),
  });
  await host.record({ id: idOf(['handed-out', because]), ...noted, who: 'buyer', device: 'link' });
}
