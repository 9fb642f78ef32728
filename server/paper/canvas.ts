/** A PDF that is drawn on in mm: pages, lines and shapes, pictures and laid text. */
import type { Mark, Pen } from '../contract/paper.ts';
import { UsedFont } from './fonts/embed.ts';
import { type About, finish, newPdf, type Pdf, type PdfImage, POINTS } from './pdf.ts';
import { Tags } from './tags.ts';
import type { Cluster } from './text/clusters.ts';
import type { Laid, Line } from './text/lay.ts';
import { setLine } from './text/set.ts';

export interface Drawn {
  readonly pen?: Pen;
  readonly fill?: number;
}

export type Picture = Extract<Mark, { mark: 'picture' }>;

/** A line without a pen and a shape without anything are drawn with this one. */
const USUAL: Pen = { width: 0.2 };
const grey = (shade: number): string =>
  `#${Math.round(shade * 255)
    .toString(16)
    .padStart(2, '0')
    .repeat(3)}`;

export class Canvas {
  private readonly pdf: Pdf;
  private readonly fonts = new Map<string, UsedFont>();
  private readonly images = new Map<string, PdfImage>();
  readonly tags: Tags;

  constructor(about: About) {
    this.pdf = newPdf(about);
    this.tags = new Tags(this.pdf);
  }

  page(width: number, height: number): void {
    this.pdf.addPage({ size: [width * POINTS, height * POINTS], margin: 0 });
    this.pdf.scale(POINTS);
  }

  /** Draws what `inside` draws, moved, turned and made larger. */
  placed(move: { x?: number; y?: number; turn?: number; scale?: number }, inside: () => void): void {
    const { x = 0, y = 0, turn = 0, scale = 1 } = move;
    this.pdf.save();
    if (x !== 0 || y !== 0) this.pdf.translate(x, y);
    if (turn !== 0) this.pdf.rotate(turn);
    if (scale !== 1) this.pdf.scale(scale);
    inside();
    this.pdf.restore();
  }

  /** Only what is in the box shows of what is drawn until the state is restored. */
  clip({ x, y, width, height }: { x: number; y: number; width: number; height: number }): void {
    this.pdf.rect(x, y, width, height).clip();
  }

  line(points: readonly (readonly [number, number])[], closed: boolean, drawn: Drawn): void {
    const [[x, y], ...rest] = points as [[number, number], ...[number, number][]];
    this.pdf.moveTo(x, y);
    for (const point of rest) this.pdf.lineTo(...point);
    if (closed) this.pdf.closePath();
    this.paint(drawn);
  }

  path(d: string, drawn: Drawn): void {
    this.pdf.path(d);
    this.paint(drawn);
  }

  box(x: number, y: number, width: number, height: number, radius: number, drawn: Drawn): void {
    if (radius > 0) this.pdf.roundedRect(x, y, width, height, Math.min(radius, width / 2, height / 2));
    else this.pdf.rect(x, y, width, height);
    this.paint(drawn);
  }

  circle(x: number, y: number, radius: number, drawn: Drawn): void {
    this.pdf.circle(x, y, radius);
    this.paint(drawn);
  }

  /** Squares of one unit each, as rows of boxes. */
  squares(boxes: readonly (readonly [x: number, y: number, width: number])[], unit: number): void {
    for (const [x, y, width] of boxes) this.pdf.rect(x * unit, y * unit, width * unit, unit);
    this.paint({ fill: 0 });
  }

  private paint({ pen, fill }: Drawn): void {
    const line = pen ?? (fill === undefined ? USUAL : undefined);
    if (line !== undefined) {
      const { width, dash, shade = 0, ends = 'butt' } = line;
      this.pdf.lineWidth(width).lineCap(ends).lineJoin('round').strokeColor(grey(shade));
      if (dash) this.pdf.dash(dash as unknown as number, {});
      else this.pdf.undash();
    }
    if (fill !== undefined) this.pdf.fillColor(grey(fill));
    if (line !== undefined && fill !== undefined) this.pdf.fillAndStroke();
    else if (line !== undefined) this.pdf.stroke();
    else this.pdf.fill();
  }

  /** @throws where the bytes are no such picture */
  picture({ x, y, width, height, base64, fit = 'contain' }: Picture): void {
    const image = this.images.get(base64) ?? this.pdf.openImage(Buffer.from(base64, 'base64'));
    this.images.set(base64, image);
    const scale = { contain: Math.min, cover: Math.max, stretch: undefined }[fit];
    const by = scale?.(width / image.width, height / image.height);
    const drawn = by === undefined ? [width, height] : [image.width * by, image.height * by];
    const [wide, high] = drawn as [number, number];
    this.pdf.save();
    if (fit === 'cover') this.clip({ x, y, width, height });
    this.pdf.image(image as never, x + (width - wide) / 2, y + (height - high) / 2, {
      width: wide,
      height: high,
    });
    this.pdf.restore();
  }

  /** Lines whose first baseline is at `y`; `left` says where each begins. */
  text(laid: Laid, left: (line: Line) => number, y: number, shade: number): void {
    this.pdf.fillColor(grey(shade));
    laid.lines.forEach((line, at) => {
      if (line.clusters.length === 0) return;
      const setting = { size: laid.size, spacing: laid.spacing, x: left(line), y: y + at * laid.step };
      this.pdf.addContent(setLine(line, (cluster) => this.fontOf(cluster), setting));
    });
  }

  private fontOf({ face, weight }: Cluster): UsedFont {
    const key = `${face.slice.id} ${weight}`;
    let font = this.fonts.get(key);
    if (font === undefined) {
      font = new UsedFont(face, weight, `T${this.fonts.size + 1}`, this.pdf.ref({}));
      this.fonts.set(key, font);
    }
    this.pdf.page.fonts[font.name] ??= font.ref;
    return font;
  }

  async finish(): Promise<Uint8Array> {
    for (const [at, font] of [...this.fonts.values()].entries()) font.embed(this.pdf, at);
    return finish(this.pdf);
  }
}
