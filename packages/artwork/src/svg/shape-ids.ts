import { harmlessText } from '../harmless-text.ts';
import type { XmlNode } from './xml-tree.ts';

/** Hands out ids that are the same from run to run: the element's own, else its kind and running number; never twice. */
export class ShapeIds {
  private readonly used = new Set<string>();
  private readonly numbers = new Map<string, number>();

  /** @param uses - ids of the `use` elements that show it, outermost first. */
  next(node: XmlNode, uses: readonly string[]): string {
    const own = node.attributes.id?.trim();
    const base = own === undefined || own === '' ? this.numbered(node.name) : harmlessText(own);
    const around = uses.map(harmlessText).filter((use) => use !== base);
    const id = around.length === 0 ? base : [...around, base].join('/');
    if (!this.used.has(id)) {
      this.used.add(id);
      return id;
    }
    for (;;) {
      const next = `${id}~${this.count(`~${id}`) + 1}`;
      if (this.used.has(next)) continue;
      this.used.add(next);
      return next;
    }
  }

  private numbered(kind: string): string {
    return `${kind}-${this.count(kind)}`;
  }

  private count(key: string): number {
    const count = (this.numbers.get(key) ?? 0) + 1;
    this.numbers.set(key, count);
    return count;
  }
}
