import { flatText } from '../flat-text.ts';
import { harmlessText } from '../harmless-text.ts';
import type { XmlNode } from './xml-tree.ts';

/** What drawing programs number by themselves: no name a person gave. */
const AUTOMATIC =
  /^(?:g|group|layer|path|rect|circle|ellipse|line|polyline|polygon|use|svg|symbol|shape|object|vector|_)?[-_ ]?\d+(?:[-_]\d+)*$/i;

/** The label, `data-name` or title that a person gave the element; null without one. */
export function labelOf(node: XmlNode): string | null {
  for (const name in node.attributes) {
    if (name.endsWith(':label') || name === 'data-name' || name === 'aria-label') {
      const label = tidy(node.attributes[name]!);
      if (label !== null) return label;
    }
  }
  const title = node.children.find((child) => child.name === 'title');
  return title === undefined ? null : tidy(title.text);
}

/** The element's own name: its label, else its id. */
export function nameOf(node: XmlNode): string | null {
  return labelOf(node) ?? idName(node);
}

/** The name that a person gave: the label, else an id that does not look numbered by a program. */
export function givenName(node: XmlNode): string | null {
  const label = labelOf(node);
  if (label !== null) return label;
  const id = idName(node);
  return id === null || AUTOMATIC.test(id) ? null : id;
}

/** Characters that an id cannot hold are often written as _x20_ and the like. */
function idName(node: XmlNode): string | null {
  const id = node.attributes.id;
  if (id === undefined) return null;
  return tidy(id.replace(/_x([\da-f]{2,4})_/gi, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16))));
}

function tidy(text: string): string | null {
  const words = harmlessText(text.replace(/\s+/g, ' ').trim().slice(0, 120));
  return words === '' ? null : words;
}

/** The element in words that lead a person to it. */
export function wordsFor(node: XmlNode): string {
  const name = nameOf(node);
  if (name === null) return flatText(node.name, ' (line ', node.line, ')');
  return flatText(node.name, " '", name, "' (line ", node.line, ')');
}
