/** What is said of a template: its form, its measures, its clay. */
import { measuresOf, scaled } from '../spec/size.ts';
import type { Spec } from '../spec/spec.ts';
import type { Template } from '../template.ts';
import { mm } from './ink.ts';

const FORMS: Readonly<Record<Spec['form'], string>> = {
  cylinder: 'Cylinder',
  frustum: 'Frustum of a cone',
  polygon: 'Many-sided pot',
  oval: 'Oval pot',
  box: 'Box',
  bowl: 'Bowl',
  sphere: 'Sphere',
  drawing: 'Drawn shape',
};

const MEASURES: Readonly<Record<string, string>> = {
  diameter: 'diameter',
  height: 'height',
  bottom: 'diameter below',
  top: 'diameter above',
  bottomSide: 'side below',
  topSide: 'side above',
  length: 'length',
  width: 'width',
  corner: 'radius of the corners',
  rim: 'diameter of the rim',
  depth: 'depth',
  foot: 'diameter of the foot',
  opening: 'opening',
};

/** 'diameter 90 mm, height 120 mm'; nothing of a drawing. */
function measuresSaid(spec: Spec): string {
  if (spec.form === 'drawing') return '';
  const measures = Object.entries(measuresOf(spec));
  return measures.map(([name, value]) => `${MEASURES[name] ?? name} ${mm(value)} mm`).join(', ');
}

/** Of one size of a set its own measures; of a page with several, their names. */
function sizeOf(spec: Spec, of: string | undefined): string {
  if (!spec.sizes) return measuresSaid(spec);
  const own = spec.sizes.find(({ name }) => name === of);
  if (!own) return spec.sizes.map(({ name }) => name).join(', ');
  return spec.form === 'drawing' ? `${mm(own.scale * 100)} %` : measuresSaid(scaled(spec, own.scale));
}

/** For the head of each page. @param of the size of a set that the page is of */
export function sizeSaid(spec: Spec, of?: string): string {
  const shrinks = (spec.shrinkage ?? 0) > 0;
  const size = sizeOf(spec, of);
  const clay = shrinks ? `clay shrinks ${mm(spec.shrinkage! * 100)} %` : 'clay shrinkage not counted';
  return size === '' ? clay : `${size}${shrinks ? ' fired' : ''}; ${clay}`;
}

export function factsOf({ spec, made, sheets }: Template): [string, string][] {
  const fired = (spec.shrinkage ?? 0) > 0;
  const sides = 'sides' in spec ? `, ${spec.sides} sides` : '';
  const size = measuresSaid(spec);
  return [
    ['Form', `${FORMS[spec.form]}${sides}`],
    ...(size !== '' ? [[fired ? 'Fired size' : 'Size', size] as [string, string]] : []),
    ...(spec.sizes
      ? [
          ['Sizes', spec.sizes.map(({ name, scale }) => `${name} ${mm(scale * 100)} %`).join(', ')] as [
            string,
            string,
          ],
        ]
      : []),
    [
      'Clay shrinkage',
      fired
        ? `${mm(spec.shrinkage! * 100)} % from wet to fired: the pieces are as much larger`
        : 'none counted: the pieces are as large as the pot',
    ],
    [
      'Paper',
      `${sheets.page.paper.name}, ${made.pieces.length} ${made.pieces.length === 1 ? 'piece' : 'pieces'} on ${sheets.sheets.length} ${sheets.sheets.length === 1 ? 'page' : 'pages'}`,
    ],
  ];
}
