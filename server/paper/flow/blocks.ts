/** The blocks of a document as strips that are not broken. */
import type { Block } from '../../contract/paper.ts';
import type { FontBook } from '../fonts/book.ts';
import { type Drawable, plain } from '../marks.ts';
import type { Tag } from '../tags.ts';
import type { Laid } from '../text/lay.ts';
import { layBlock } from './lay-block.ts';
import { type Measures, SIZES, type Strip } from './measures.ts';
import { tableStrips } from './table.ts';

/** A strip for each line. */
function lines(laid: Laid, before: number, x: number, width: number, tag: Tag = { as: 'P' }): Strip[] {
  return laid.lines.map((line, at) => ({
    height: laid.step,
    before: at === 0 ? before : 0,
    marks: [
      {
        mark: 'laid',
        laid: { ...laid, lines: [line], height: laid.step },
        ...{ x, y: 0, width, tag },
        align: 'start',
      },
    ],
    // Neither the first nor the last line of a paragraph stands alone on a page.
    withNext: laid.lines.length > 1 && (at === 0 || at === laid.lines.length - 2),
  }));
}

const rule = (width: number): Drawable => ({
  mark: 'line',
  points: [
    [0, 0],
    [width, 0],
  ],
  pen: { width: 0.2, shade: 0.3 },
});

export function stripsOf(block: Block, measures: Measures, book: FontBook): Strip[] {
  const { inner } = measures;
  switch (block.block) {
    case 'heading': {
      const level = block.level ?? 2;
      const laid = layBlock(plain(block.text), book, SIZES[level], 'bold', inner);
      return lines(laid, level === 1 ? 4 : 6, 0, inner, { as: `H${level}` }).map((strip) => ({
        ...strip,
        withNext: true,
      }));
    }
    case 'paragraph': {
      const { text, size = 'body', weight = 'regular' } = block;
      return lines(layBlock(plain(text), book, SIZES[size], weight, inner), 2, 0, inner);
    }
    case 'list': {
      const list: Tag = { as: 'L' };
      return block.items.flatMap((item, at) => {
        const tag: Tag = { as: 'LBody', within: { as: 'LI', within: list } };
        const sign = layBlock(block.numbered ? `${at + 1}.` : '–', book, SIZES.body, 'regular');
        const [first, ...rest] = lines(
          layBlock(plain(item), book, SIZES.body, 'regular', inner - 6),
          1,
          6,
          inner - 6,
          tag,
        );
        const mark: Drawable = { mark: 'laid', laid: sign, x: 0, y: 0, width: 5, align: 'left', tag };
        return [{ ...first!, marks: [mark, ...first!.marks] }, ...rest];
      });
    }
    case 'facts':
      return facts(
        block.facts.map(([name, value]) => [plain(name), plain(value)]),
        inner,
        book,
      );
    case 'table':
      return tableStrips(block, measures, book);
    case 'drawing': {
      const scale = Math.min(1, inner / block.width, measures.room / block.height);
      const x = block.align === 'middle' ? (inner - block.width * scale) / 2 : 0;
      const marks: Drawable[] = [{ mark: 'group', x, y: 0, scale, title: block.title, marks: block.marks }];
      return [{ height: block.height * scale, before: 3, marks }];
    }
    case 'rule':
      return [{ height: 0.2, before: 3, marks: [rule(inner)] }];
    case 'space':
      return [{ height: 0, before: block.height, marks: [] }];
    case 'page-break':
      return [{ height: 0, before: 0, marks: [], newPage: true }];
  }
}

/** Names in a column as wide as the longest, up to a third. */
function facts(pairs: readonly (readonly [string, string])[], inner: number, book: FontBook): Strip[] {
  const names = pairs.map(([name]) => layBlock(name, book, SIZES.body, 'bold'));
  const wide = Math.min(inner / 3, Math.max(0, ...names.map((it) => it.width)));
  return pairs.map(([name, value], at): Strip => {
    const tag: Tag = { as: 'P' };
    const left = layBlock(name, book, SIZES.body, 'bold', wide);
    const right = layBlock(value, book, SIZES.body, 'regular', inner - wide - 4);
    return {
      height: Math.max(left.height, right.height),
      before: at === 0 ? 2 : 0.8,
      marks: [
        { mark: 'laid', laid: left, x: 0, y: 0, width: wide, align: 'left', tag },
        { mark: 'laid', laid: right, x: wide + 4, y: 0, width: inner - wide - 4, align: 'left', tag },
      ],
    };
  });
}
