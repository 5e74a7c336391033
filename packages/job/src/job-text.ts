import { getNodeValue, type Node, type ParseError, parseTree, printParseErrorCode } from 'jsonc-parser';
import { shown } from './document-fields.ts';
import { JobError } from './error.ts';

/**
 * The object that a job file holds. Comments, a comma after the last entry and a byte-order mark are allowed, since people
 * write these files by hand.
 * @throws JobError `job-invalid` with line and column for faults of notation and for a field that stands twice (of two prices
 * nobody can tell which was meant).
 */
export function readJobText(text: string, name: string): Record<string, unknown> {
  const plain = text.replace(/^\uFEFF/, '');
  if (plain.trim() === '') throw fault(name, 'is empty: a job needs at least artwork, bed and boards.');
  const errors: ParseError[] = [];
  const tree = treeOf(plain, errors, name);
  const [first] = errors;
  if (first !== undefined) {
    const isComma = /\d,\d?$/.test(plain.slice(0, first.offset)) && /^\d/.test(plain.slice(first.offset));
    const what = isComma ? 'decimals have a point, as in 0.2, not a comma' : WORDS[printParseErrorCode(first.error)];
    throw fault(name, `is not valid JSON: ${whereIs(plain, first.offset)}, ${what ?? 'this cannot be read'}.`);
  }
  if (tree?.type !== 'object') {
    const held = tree === undefined ? 'nothing' : shown(getNodeValue(tree));
    throw fault(name, `must hold one job object, but holds ${held}.`);
  }
  const double = firstDouble(tree);
  if (double !== null) {
    const { key, offset, before } = double;
    const places = `${whereIs(plain, before)}, and ${whereIs(plain, offset)}`;
    throw fault(name, `has the field "${key}" twice in one object (${places}): keep one.`, key);
  }
  return getNodeValue(tree) as Record<string, unknown>;
}

/** @throws JobError `job-invalid` for lists within lists beyond what the program's stack takes. */
function treeOf(plain: string, errors: ParseError[], name: string): Node | undefined {
  try {
    return parseTree(plain, errors, { allowTrailingComma: true });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw fault(name, 'is nested deeper than any job: look for brackets that are opened again and again.');
  }
}

const WORDS: Readonly<Record<string, string>> = {
  InvalidSymbol:
    'there is a word that is no value: put text in double quotes; numbers, true, false and null stand bare',
  InvalidNumberFormat: 'there is a number that cannot be read: write it as 0.2',
  PropertyNameExpected: 'the name of a field is missing: it stands in double quotes',
  ValueExpected: 'a value is missing',
  ColonExpected: 'a colon is missing after the name of the field',
  CommaExpected: 'a comma is missing before this entry',
  CloseBraceExpected: 'a closing } is missing',
  CloseBracketExpected: 'a closing ] is missing',
  EndOfFileExpected: 'something follows after the end of the job',
  UnexpectedEndOfComment: 'a comment has no end: close it with */',
  UnexpectedEndOfString: 'text has no closing quote',
  UnexpectedEndOfNumber: 'a number breaks off: write it as 0.2',
  InvalidUnicode: 'a \\u escape has not four hexadecimal digits',
  InvalidEscapeCharacter: 'there is an escape that JSON does not know: write \\\\ for a backslash',
  InvalidCharacter: 'there is a control character inside text: write \\n or \\t',
};

/** Line and column of a character, both from 1. */
function whereIs(text: string, offset: number): string {
  const lines = text.slice(0, offset).split(/\r\n|\r|\n/);
  return `line ${lines.length}, column ${lines.at(-1)!.length + 1}`;
}

interface Double {
  readonly key: string;
  readonly before: number;
  readonly offset: number;
}

function firstDouble(node: Node): Double | null {
  const seen = new Map<string, number>();
  for (const child of node.children ?? []) {
    if (node.type === 'object') {
      const [name] = child.children!;
      const key = name!.value as string;
      const before = seen.get(key);
      if (before !== undefined) return { key, before, offset: name!.offset };
      seen.set(key, name!.offset);
    }
    const found = firstDouble(child);
    if (found !== null) return found;
  }
  return null;
}

function fault(name: string, words: string, field?: string): JobError {
  return new JobError('job-invalid', `${name} ${words}`, { file: name, ...(field === undefined ? {} : { field }) });
}
