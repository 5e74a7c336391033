import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { type MessageFormatElement, parse, TYPE } from '@formatjs/icu-messageformat-parser';
import { AIMS, MASKS, TIE_BREAKS } from '@underlap/job/choices';
import { FIGURE_COLUMNS } from '@underlap/job/comparison-columns';
import { KNOB_WISHES } from '@underlap/seam/knob-kinds';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { UNIT_NAMES } from '../units/length.ts';
import { numberStyle } from '../units/number.ts';
import { CATALOGUE, type WordKey } from './catalogue.ts';
import { LANGUAGES } from './phrase.ts';
import { sayIn } from './say.ts';

const SOURCE = join(import.meta.dirname, '..');
const KEYS = Object.keys(CATALOGUE) as WordKey[];

/** Their strings go to machines: fonts, picture files, results that are sent. */
const SPEAKS_TO_MACHINES = /\/(words|workers|workbench|ready)\/|picture\/(paint|painter|picture-svg)(\.worker)?\.ts$/;

/** Every source file of the page. */
function sourceFiles(): string[] {
  return readdirSync(SOURCE, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name) && !/\.test\.ts$|\.d\.ts$/.test(name))
    .map((name) => join(SOURCE, name));
}

function treeOf(text: string, name: string): ts.SourceFile {
  return ts.createSourceFile(name, text, ts.ScriptTarget.Latest, true, ts.ScriptKind.TSX);
}

function walk(node: ts.Node, visit: (node: ts.Node) => void): void {
  visit(node);
  node.forEachChild((child) => walk(child, visit));
}

const HEARD_ATTRIBUTES = /^(aria-label|title|alt|placeholder|label|words|suffix|empty)$/;

/** Words a person would read or hear that stand in the code itself, with their line. */
function literalWords(text: string, name: string): string[] {
  const found: string[] = [];
  const tree = treeOf(text, name);
  const tell = (node: ts.Node, words: string): void => {
    const { line } = tree.getLineAndCharacterOfPosition(node.getStart(tree));
    found.push(`${name}:${line + 1} ${words.trim()}`);
  };
  walk(tree, (node) => {
    if (ts.isJsxText(node)) {
      if (/\p{L}/u.test(node.text.replace(/&[#\w]+;/g, ''))) tell(node, node.text);
      return;
    }
    const isTemplate = ts.isTemplateExpression(node);
    if (!ts.isStringLiteralLike(node) && !isTemplate) return;
    const words = isTemplate
      ? [node.head.text, ...node.templateSpans.map((span) => span.literal.text)].join(' \u2026 ')
      : node.text;
    if (isPartOf(node, (parent) => ts.isImportDeclaration(parent) || ts.isTypeNode(parent))) return;
    const attribute = nearestAttribute(node);
    if (attribute !== null && HEARD_ATTRIBUTES.test(attribute)) {
      const isKey = KEYS.includes(words as WordKey);
      if (/\p{L}{2}/u.test(words) && !isKey && !isInCallOf(node, 't')) tell(node, words);
      return;
    }
    if (attribute !== null) return;
    // two words with a space between them read as a sentence, wherever they go
    const isSentence = /\p{L}{2,} \p{L}{2,}/u.test(words) || (isTemplate && /\p{L}{2,} \u2026 \p{L}{2,}/u.test(words));
    if (isSentence && !isPartOf(node, ts.isThrowStatement)) tell(node, words);
  });
  return found;
}

function isPartOf(node: ts.Node, is: (parent: ts.Node) => boolean): boolean {
  for (let at = node.parent; at !== undefined; at = at.parent) if (is(at)) return true;
  return false;
}

function isInCallOf(node: ts.Node, name: string): boolean {
  return isPartOf(
    node,
    (parent) =>
      ts.isCallExpression(parent) &&
      ts.isPropertyAccessExpression(parent.expression) &&
      parent.expression.name.text === name,
  );
}

/** The attribute whose value the node is a part of; null when none is, or when it is in a function below it. */
function nearestAttribute(node: ts.Node): string | null {
  for (let at = node.parent; at !== undefined; at = at.parent) {
    if (ts.isFunctionLike(at)) return null;
    if (ts.isJsxAttribute(at)) return at.name.getText();
  }
  return null;
}

/** Values of lists whose words are found by their value. */
const LISTED: readonly string[] = [
  ...UNIT_NAMES,
  ...KNOB_WISHES,
  ...AIMS,
  ...TIE_BREAKS,
  ...MASKS,
  ...FIGURE_COLUMNS.map(({ name }) => name),
];

/** Names of all places of a message, those within branches too. */
function placesOf(elements: readonly MessageFormatElement[], places = new Set<string>()): Set<string> {
  for (const element of elements) {
    if (element.type === TYPE.tag) placesOf(element.children, places);
    else if (element.type !== TYPE.literal && element.type !== TYPE.pound) places.add(element.value);
    if (element.type === TYPE.plural || element.type === TYPE.select) {
      for (const { value } of Object.values(element.options)) placesOf(value, places);
    }
  }
  return places;
}

describe('the words of the page', () => {
  it.each(LANGUAGES)('are whole messages in %s, with the same places as in English', (language) => {
    for (const key of KEYS) {
      const message = CATALOGUE[key][language];
      expect(message.trim(), key).not.toBe('');
      expect([...placesOf(parse(message))].sort(), key).toEqual([...placesOf(parse(CATALOGUE[key].en))].sort());
    }
  });

  it('are all used, and each key stands in one area only', () => {
    const used = new Set<string>();
    const heads = new Set<string>();
    for (const file of sourceFiles()) {
      if (file.includes('/words/') && /-words|say\.ts$/.exec(file) === null) continue;
      walk(treeOf(readFileSync(file, 'utf8'), file), (node) => {
        if (ts.isStringLiteralLike(node)) used.add(node.text);
        if (ts.isTemplateExpression(node)) heads.add(node.head.text);
      });
    }
    const isOfList = (key: string) =>
      LISTED.some((word) => key.endsWith(word) && heads.has(key.slice(0, -word.length)));
    expect(KEYS.filter((key) => !used.has(key) && !isOfList(key))).toEqual([]);
    const areas = readdirSync(import.meta.dirname).filter((name) => /^[a-z]+\.ts$/.test(name));
    const written = areas.flatMap((name) =>
      [...readFileSync(join(import.meta.dirname, name), 'utf8').matchAll(/^ {2}'([\w.-]+)':/gm)].map(
        (match) => match[1],
      ),
    );
    expect(written.filter((key, at) => written.indexOf(key) !== at)).toEqual([]);
    expect(written.length).toBe(KEYS.length);
  });

  it('stand nowhere but in the catalogue', () => {
    const found = sourceFiles()
      .filter((file) => !SPEAKS_TO_MACHINES.test(file))
      .flatMap((file) => literalWords(readFileSync(file, 'utf8'), relative(SOURCE, file)));
    expect(found).toEqual([]);
  });

  it('are found where they stand in a view', () => {
    const view = `export const A = () => (<p title="Choose a part" className="hint is-quiet">Lies below {'the upper part'} {say.t('page.close')}</p>);
      session.notices.say(\`\${name} is saved\`); const size = \`\${a} \${b}\`;`;
    expect(literalWords(view, 'a.tsx')).toEqual([
      'a.tsx:1 Choose a part',
      'a.tsx:1 Lies below',
      'a.tsx:1 the upper part',
      'a.tsx:2 \u2026  is saved',
    ]);
  });

  it('count and write figures as each language does', () => {
    const english = sayIn({ language: 'en', unit: 'mm', numbers: numberStyle('en-GB') });
    const german = sayIn({ language: 'de', unit: 'mm', numbers: numberStyle('de') });
    expect(english.t('line.carry', { n: 1 })).toBe('1 part carries others');
    expect(english.t('line.carry', { n: 3 })).toBe('3 parts carry others');
    expect(english.t('parts.title', { n: 1 })).toBe('The only part');
    expect(german.t('line.carry', { n: 1 })).toBe('1 Teil trägt andere');
    expect(german.t('line.part-shows', { part: 'Tafel', n: 2, length: german.length(1234.5) })).toBe(
      'Tafel in 2 Stücken, 1.234,5 mm Naht sichtbar',
    );
    expect(german.percent(0.125, 1)).toMatch(/^12,5\s%$/);
    const inches = sayIn({ language: 'de', unit: 'in', numbers: numberStyle('de') });
    expect(inches.size(508, 304.8)).toBe('20 × 12 Zoll');
  });
});
