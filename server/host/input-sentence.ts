/** What is wrong with a command's input, and what would be right, in a sentence. */
import type { z } from 'zod';
import { type Refusal, refuse } from '../contract/streams.ts';

type Issue = z.core.$ZodIssue;

const KINDS: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'yes or no',
  array: 'a list',
  object: 'a group of fields',
};

const FORMATS: Readonly<Record<string, string>> = {
  date: 'a day of the calendar like 2026-05-01',
  datetime: 'a day and time with its offset like 2026-05-01T10:15:00+01:00',
  uuid: 'a UUID',
  email: 'an e-mail address',
  url: 'a web address',
};

export function badInput(error: z.ZodError): Refusal {
  const issue = deepest(error.issues[0]!);
  const field = issue.path.map(String).join('.');
  return refuse('bad-input', sentence(issue, field), field || undefined);
}

/** Of a choice between shapes, the one that comes nearest: whose fault lies deepest. */
function deepest(issue: Issue): Issue {
  if (issue.code !== 'invalid_union') return issue;
  const inner = issue.errors.flatMap((issues) => issues.slice(0, 1)).map(deepest);
  const nearest = inner.sort((a, b) => b.path.length - a.path.length)[0];
  return nearest ? { ...nearest, path: [...issue.path, ...nearest.path] } : issue;
}

function sentence(issue: Issue, field: string): string {
  if (issue.code === 'unrecognized_keys') {
    const keys = issue.keys.map((key) => `“${key}”`).join(', ');
    return `${keys} ${issue.keys.length === 1 ? 'is' : 'are'} not known here${field ? ` (in “${field}”)` : ''}; leave ${issue.keys.length === 1 ? 'it' : 'them'} out.`;
  }
  const name = field ? `“${field}”` : 'What was given';
  const missing =
    issue.code === 'invalid_type' && issue.input === undefined && / undefined$/.test(issue.message);
  if (missing) return `${name} is missing; it should be ${wanted(issue)}.`;
  return `${name} should be ${wanted(issue)}${instead(issue.input)}.`;
}

/** What stands there instead, where it is short enough to be shown. */
function instead(input: unknown): string {
  if (typeof input === 'number' || typeof input === 'boolean') return `, not ${input}`;
  return typeof input === 'string' && input !== '' && input.length <= 40 ? `, not “${input}”` : '';
}

function wanted(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return KINDS[issue.expected] ?? issue.expected;
    case 'invalid_value':
      return issue.values.length === 1
        ? `“${String(issue.values[0])}”`
        : `one of ${issue.values.map(String).join(', ')}`;
    case 'too_small':
      return `${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}${unit(issue.origin, Number(issue.minimum))}`;
    case 'too_big':
      return `${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}${unit(issue.origin, Number(issue.maximum))}`;
    case 'invalid_format':
      return (
        FORMATS[issue.format] ??
        (issue.message.startsWith('Invalid') ? 'in the form that is used for it' : issue.message)
      );
    case 'invalid_union':
      return 'options' in issue && Array.isArray(issue.options)
        ? `one of ${issue.options.join(', ')}`
        : issue.message;
    case 'not_multiple_of':
      return `a multiple of ${issue.divisor}`;
    default:
      return issue.message;
  }
}

function unit(origin: string, size: number): string {
  const many = size === 1 ? '' : 's';
  if (origin === 'string') return ` letter${many} long`;
  return origin === 'array' || origin === 'set' ? ` item${many} long` : '';
}
