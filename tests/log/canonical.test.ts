import canonicalize from 'canonicalize';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonical } from '../../server/log/canonical.ts';
import { blank, type Sealed, seal } from '../../server/log/chain.ts';
import { Unkeepable } from '../../server/log/log.ts';

const rfc = (value: unknown) => canonical(value, 'value', { integers: 'any' });

function double(bits: string): number {
  const view = new DataView(new ArrayBuffer(8));
  view.setBigUint64(0, BigInt(`0x${bits}`));
  return view.getFloat64(0);
}

describe('the examples of RFC 8785', () => {
  test('section 3.2.2: literals, numbers and strings', () => {
    const given = JSON.parse(String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`);
    expect(rfc(given)).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
  });

  test('section 3.2.3: names are sorted by UTF-16 code units', () => {
    const given = JSON.parse(String.raw`{
      "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
      "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis"
    }`);
    const values = [...rfc(given).matchAll(/:"([^"]*)"/g)].map((match) => match[1]);
    expect(values).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  test.each([
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['ffefffffffffffff', '-1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['c340000000000000', '-9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef4f', '999999999999999900000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555554', '333333333.33333325'],
    ['41b3de4355555555', '333333333.3333333'],
    ['41b3de4355555556', '333333333.3333334'],
    ['41b3de4355555557', '333333333.33333343'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
    ['43143ff3c1cb0959', '1424953923781206.2'],
  ])('appendix B: the double %s is written %s', (bits, text) => {
    expect(rfc(double(bits))).toBe(text);
  });

  test.each(['7fffffffffffffff', '7ff0000000000000', 'fff0000000000000'])(
    'appendix B: the double %s is refused',
    (bits) => {
      expect(() => rfc(double(bits))).toThrow(Unkeepable);
    },
  );
});

test('it writes what the canonicalize package writes', () => {
  const keepable = fc.jsonValue({ stringUnit: 'binary', maxDepth: 5 }).filter((value) => isKept(value));
  fc.assert(
    fc.property(keepable, (value) => {
      expect(rfc(value)).toBe(canonicalize(value));
    }),
    { seed: 8785, numRuns: 2000 },
  );
});

function isKept(value: unknown): boolean {
  try {
    rfc(value);
    return true;
  } catch (error) {
    // Only names and letters that the log refuses on purpose may be left out of the comparison.
    return !/NUL|surrogate|meaning of its own/.test((error as Error).message);
  }
}

describe('what the log cannot keep is refused with its path', () => {
  test.each([
    ['a NUL character', { note: ['fine', 'cut\u0000off'] }, 'data.note[1]', 'NUL'],
    ['half a surrogate pair', { a: { b: 'x\ud83d' } }, 'data.a.b', 'surrogate'],
    ['the other half', { a: '\ude00x' }, 'data.a', 'surrogate'],
    ['halves the wrong way round', { a: '\ude00\ud83d' }, 'data.a', 'surrogate'],
    ['NaN', { coats: Number.NaN }, 'data.coats', 'NaN'],
    ['infinity', [1, Number.NEGATIVE_INFINITY], 'data[1]', '-Infinity'],
    ['an integer beyond 2^53', { n: 2 ** 53 }, 'data.n', 'too large'],
    ['an integer below -2^53', { n: -(2 ** 53) - 2 }, 'data.n', 'too large'],
    ['undefined', { a: undefined }, 'data.a', 'undefined'],
    ['a hole in a list', Object.assign([1], { length: 2 }), 'data[1]', 'undefined'],
    ['a function', { a: () => 1 }, 'data.a', 'function'],
    ['a bigint', { a: 1n }, 'data.a', 'bigint'],
    ['a symbol', { a: Symbol('a') }, 'data.a', 'symbol'],
    ['a date', { at: new Date(0) }, 'data.at', 'plain record'],
    ['a map', { at: new Map() }, 'data.at', 'plain record'],
    ['__proto__', JSON.parse('{"x":{"__proto__":{"a":1}}}'), 'data.x.__proto__', 'meaning of its own'],
    ['constructor', { constructor: 1 }, 'data.constructor', 'meaning of its own'],
    ['prototype', [{ prototype: 1 }], 'data[0].prototype', 'meaning of its own'],
    ['a NUL in a name', { 'a\u0000': 1 }, 'data.a\u0000', 'NUL'],
  ])('%s', (_, value, path, why) => {
    expect.assertions(2);
    try {
      canonical(value, 'data');
    } catch (error) {
      expect((error as Unkeepable).path).toBe(path);
      expect((error as Unkeepable).why).toContain(why);
    }
  });

  test('a record that holds itself, before the stack runs out', () => {
    const ring: Record<string, unknown> = {};
    ring.ring = ring;
    expect(() => canonical(ring, 'data')).toThrow(/levels deep/);
  });

  test('but not emoji, large fractions, records without a prototype, or deep lists', () => {
    const plain = Object.assign(Object.create(null), { a: '🏺', b: 1e-9, c: 9007199254740991 });
    expect(canonical(plain, 'data')).toBe('{"a":"🏺","b":1e-9,"c":9007199254740991}');
  });
});

test('a sealed body is the canonical form of the whole entry', () => {
  const name = fc.string({ minLength: 1, unit: 'grapheme' }).filter((it) => !it.includes('\u0000'));
  const entry = fc.record({
    command: name,
    part: fc.nat(),
    name,
    version: fc.integer({ min: 1, max: 99 }),
    happenedAt: name,
    who: name,
    device: name,
    clock: fc.option(name, { nil: undefined }),
    streams: fc.array(name),
    claims: fc.option(fc.array(name), { nil: undefined }),
    releases: fc.option(fc.array(name), { nil: undefined }),
    fingerprint: fc.option(name, { nil: undefined }),
    data: fc.dictionary(
      fc.constantFrom('z', 'a', 'é', '10', '9'),
      fc.oneof(name, fc.integer(), fc.boolean()),
    ),
  });
  fc.assert(
    fc.property(entry, fc.nat(), (given, seq) => {
      const recordedAt = '2026-05-01T09:00:00.000Z';
      const previous = 'ab'.repeat(32);
      const { body } = seal(blank(given, 'entry'), seq, recordedAt, previous);
      const whole = { ...given, seq, recordedAt, previous } as Sealed;
      expect(body).toBe(canonicalize(JSON.parse(JSON.stringify(whole))));
    }),
    { seed: 1, numRuns: 500 },
  );
});
