import { readFileSync } from 'node:fs';
import { parseXml, type XmlNode } from '@underlap/artwork/svg/xml-tree';
import { type INode, parseSync } from 'svgson';
import { describe, expect, it } from 'vitest';
import { iconCorpus } from '../support/icon-corpus.ts';
import { randomSvg } from '../support/random-svg.ts';

/**
 * The tree of elements and attributes against another parser: svgson 5.3. (The reader itself does not use it: it gives no
 * places, leaves entities undecoded, and throws a TypeError on truncated or mismatched markup.)
 */
interface Tree {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Tree[];
}

const ours = ({ name, attributes, children }: XmlNode): Tree => ({
  name,
  attributes: { ...attributes },
  children: children.map(ours),
});
const theirs = ({ name, attributes, children }: INode): Tree => ({
  name,
  attributes,
  children: children.filter((child) => child.type === 'element').map(theirs),
});

describe('element trees', () => {
  it('are those of another parser for open icon sets, random drawings and the samples', { timeout: 120_000 }, () => {
    const samples = ['harbour-sign', 'harbour-spread', 'round-sign', 'wide-sign'].map((name) =>
      readFileSync(new URL(`../../samples/${name}.svg`, import.meta.url), 'utf8'),
    );
    const icons = iconCorpus().filter((_, i) => i % 3 === 0);
    const texts = [
      ...icons.map((file) => file.read()),
      ...samples,
      ...Array.from({ length: 50 }, (_, i) => randomSvg(`tree-${i}`)),
    ];
    expect(texts.length).toBeGreaterThan(3000);
    for (const text of texts) {
      const document = parseXml(text, 'file');
      expect(document.faults).toEqual([]);
      expect(ours(document.root)).toEqual(theirs(parseSync(text)));
    }
  });
});
