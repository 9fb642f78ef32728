import { render } from 'preact-render-to-string';
import { afterEach, describe, expect, test } from 'vitest';
import {
  FAULTS,
  FURNITURE,
  GRADES,
  LEAVINGS,
  METHODS,
  REPAIRS,
  STAGES,
  ZONES,
} from '../../server/contract/trade.ts';
import { Mark } from '../../web/parts/mark.tsx';
import { say } from '../../web/parts/problem.tsx';
import { notebook } from '../../web/words/import.ts';
import {
  amountText,
  dayText,
  habits,
  listText,
  minorUnits,
  momentText,
  moneyText,
  pieces,
  rateText,
  shortDayText,
  timeText,
  today,
} from '../../web/words/numbers.ts';
import { piece } from '../../web/words/piece.ts';
import * as trade from '../../web/words/trade.ts';

const first = habits.value;
afterEach(() => {
  habits.value = first;
});

describe('the trade’s words', () => {
  test('each has a name to be read by, and no name is left over', () => {
    const pairs = [
      [STAGES, trade.stageNames],
      [FAULTS, trade.faultNames],
      [REPAIRS, trade.repairNames],
      [ZONES, trade.zoneNames],
      [GRADES, trade.gradeNames],
      [METHODS, trade.methodNames],
      [FURNITURE, trade.furnitureNames],
      [LEAVINGS, trade.leavingNames],
    ] as const;
    for (const [ids, names] of pairs) expect(Object.keys(names)).toEqual([...ids]);
  });

  test('a word of the user’s own opens its hyphens, even one that is called like a part of the language', () => {
    expect(trade.named(trade.faultNames, 'kiln-crumbs')).toBe('kiln crumbs');
    expect(trade.named(trade.faultNames, 'constructor')).toBe('constructor');
  });
});

describe('a day', () => {
  test('is the same day in every zone', () => {
    habits.value = { ...first, zone: 'Pacific/Kiritimati' };
    expect(dayText('2026-05-01')).toBe('1 May 2026');
    habits.value = { ...first, zone: 'Pacific/Pago_Pago' };
    expect(shortDayText('2026-05-01')).toBe('1 May');
  });

  test('of a moment is the studio’s, through the change of the clock', () => {
    expect(momentText('2026-03-29T00:30:00Z')).toBe('29 Mar 2026, 00:30');
    expect(momentText('2026-03-29T01:30:00Z')).toBe('29 Mar 2026, 02:30');
    habits.value = { ...first, zone: 'Pacific/Auckland' };
    expect(dayText('2026-05-01T20:00:00Z')).toBe('2 May 2026');
  });

  test('has no hour where none was noted', () => {
    expect(timeText('2026-05-01')).toBe('');
    expect(momentText('2026-05-01')).toBe('1 May 2026');
  });

  test('reads as the user’s country writes it', () => {
    habits.value = { ...first, locale: 'en-US' };
    expect(dayText('2026-05-01')).toBe('May 1, 2026');
  });

  test('today is the studio’s, not the device’s', () => {
    habits.value = { ...first, zone: 'Pacific/Auckland' };
    expect(today(new Date('2026-05-01T20:00:00Z'))).toBe('2026-05-02');
  });
});

describe('an amount', () => {
  test('is shown with as many places as its money has', () => {
    expect(moneyText(1850, 'GBP')).toBe('£18.50');
    expect(moneyText(1850, 'JPY')).toBe('JP¥1,850');
    expect(moneyText(1850, 'KWD')).toMatch(/1\.850/);
  });

  test('is read with a point or a comma, and what is no amount is not guessed at', () => {
    expect(minorUnits('18', 'GBP')).toBe(1800);
    expect(minorUnits('18.5', 'GBP')).toBe(1850);
    expect(minorUnits(' 18,50 ', 'GBP')).toBe(1850);
    expect(minorUnits('1850', 'JPY')).toBe(1850);
    expect(minorUnits('4.250', 'KWD')).toBe(4250);
    for (const wrong of [
      '',
      'eighteen',
      '-3',
      '1.2.3',
      '1e3',
      '1e99',
      'Infinity',
      '18.50 each',
      '1,234',
      '9999999999.99',
    ])
      expect(minorUnits(wrong, 'GBP')).toBeUndefined();
    expect(minorUnits('18.50', 'JPY')).toBeUndefined();
  });

  // ISO 4217, list one: two minor digits, where Intl shows none.
  test('counts forints in hundredths, in a field, on a line and back', () => {
    expect(minorUnits('1500', 'HUF')).toBe(150_000);
    expect(amountText(150_000, 'HUF')).toBe('1500.00');
    expect(moneyText(150_000, 'HUF')).toMatch(/1,500\.00/);
  });
});

describe('counts', () => {
  test('agree with their noun', () => {
    expect(pieces(1)).toBe('1 piece');
    expect(pieces(1200)).toBe('1,200 pieces');
    expect(piece.grades(9, 2, 1)).toBe('9 firsts, 2 seconds and 1 waster');
    expect(piece.grades(1, 0, 0)).toBe('1 first');
    expect(listText(['a', 'b'])).toBe('a and b');
  });

  test('a small rate keeps a decimal, a large one does not pretend to', () => {
    expect(rateText(0.004)).toBe('0.4%');
    expect(rateText(0.333)).toBe('33%');
  });
});

describe('what went wrong', () => {
  test('says what happened, what was kept, and what to do', () => {
    const said = say({ code: 'not-reached', sentence: '', status: 0 }, false, false);
    expect(said).toEqual({
      what: 'Wareboard could not be reached.',
      kept: 'Nothing was recorded; what you entered is still on this page.',
      doNext: 'See that it is running on the laptop, then try again.',
    });
  });

  test('gives a refusal in the server’s own sentence', () => {
    const sentence = 'This can’t be graded: it is just made.';
    expect(say({ code: 'illegal', sentence, status: 409 }, false, false).what).toBe(sentence);
  });

  test('does not say that nothing was recorded where something was', () => {
    const said = say({ code: 'illegal', sentence: 'No.', status: 409 }, false, true);
    expect(said.kept).toBe('What came before it was recorded; this was not.');
  });
});

test('a piece without a foot mark is said to have none', () => {
  expect(render(<Mark mark={null} />)).toContain('no mark');
  expect(render(<Mark mark="VYKAD" />)).toBe('<span class="mark">VYKAD</span>');
});

test('every column of a notebook has a name to be mapped to', () => {
  expect(Object.keys(notebook.columns)).toHaveLength(22);
  expect(Object.keys(notebook.columns).slice(0, 3)).toEqual(['piece', 'count', 'made']);
});
