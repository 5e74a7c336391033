import { type CssNode, generate, parse } from 'css-tree';
import { classesOf, compileSelector, type MatchBudget, matchesSelector, type Selector } from './selectors.ts';
import type { XmlNode } from './xml-tree.ts';

export interface Declaration {
  readonly property: string;
  readonly value: string;
  readonly isImportant: boolean;
}

interface Rule {
  readonly selector: Selector;
  readonly order: number;
  readonly declarations: readonly Declaration[];
}

/** Steps of selector matching in one file before the sheet counts as hostile: seconds, not minutes. */
const MATCH_STEPS = 2_000_000;

/** All rules of a file's style sheets, looked up by the rightmost id, class or type. */
export class StyleSheet {
  /** Things in the sheets that are not understood, in words, each once. */
  readonly notes = new Set<string>();
  private readonly rules = new Map<string, Rule[]>();
  private readonly budget: MatchBudget = { left: MATCH_STEPS };
  private order = 0;

  get isExhausted(): boolean {
    return this.budget.left <= 0;
  }

  get isEmpty(): boolean {
    return this.order === 0;
  }

  /** Add the text of one `style` element. */
  add(text: string): void {
    const tree = parseOrNull(text, 'stylesheet', () => this.notes.add('a rule that cannot be read'));
    if (tree === null) {
      this.notes.add('a sheet that cannot be read');
      return;
    }
    const pending: CssNode[] = [tree];
    while (pending.length > 0) {
      const node = pending.pop()!;
      if (node.type === 'StyleSheet' || node.type === 'Block') pending.push(...node.children.toArray().reverse());
      else if (node.type === 'Rule') this.addRule(node);
      else if (node.type === 'Atrule') this.enterAtRule(node, pending);
    }
  }

  /** Declarations that apply to the element, weakest first; important ones carry their flag. */
  declarationsFor(node: XmlNode): readonly Declaration[] {
    if (this.isEmpty || this.isExhausted) return [];
    const { id } = node.attributes;
    const keys = ['any:', `type:${node.name}`, ...classesOf(node).map((name) => `class:${name}`)];
    if (id !== undefined) keys.push(`id:${id}`);
    const found: Rule[] = [];
    for (const key of keys) {
      for (const rule of this.rules.get(key) ?? []) {
        if (matchesSelector(rule.selector, node, this.budget)) found.push(rule);
      }
    }
    found.sort((a, b) => a.selector.specificity - b.selector.specificity || a.order - b.order);
    return found.flatMap((rule) => rule.declarations);
  }

  private addRule(rule: Extract<CssNode, { type: 'Rule' }>): void {
    const declarations = declarationsOf(rule.block);
    if (rule.prelude.type !== 'SelectorList') {
      this.notes.add('a selector that cannot be read');
      return;
    }
    for (const node of rule.prelude.children) {
      const selector = compileSelector(node);
      if (selector === null) {
        this.notes.add(`selector '${generate(node).slice(0, 60)}'`);
        continue;
      }
      const key = `${selector.key.kind}:${selector.key.value}`;
      const list = this.rules.get(key);
      const entry = { selector, order: this.order++, declarations };
      if (list === undefined) this.rules.set(key, [entry]);
      else list.push(entry);
    }
  }

  private enterAtRule(rule: Extract<CssNode, { type: 'Atrule' }>, pending: CssNode[]): void {
    if (rule.name === 'media') {
      const query = rule.prelude === null ? '' : generate(rule.prelude).toLowerCase();
      if (/^(|all|screen|screen,print|print,screen)$/.test(query)) {
        if (rule.block !== null) pending.push(rule.block);
      } else if (!/^print$/.test(query)) this.notes.add(`@media ${query.slice(0, 60)}`);
    } else if (rule.name === 'import') this.notes.add('@import (nothing outside the file is read)');
    else if (rule.name !== 'font-face' && rule.name !== 'charset' && rule.name !== 'namespace') {
      this.notes.add(`@${rule.name.slice(0, 40)}`);
    }
  }
}

/** Reads `style` attributes; equal texts, the rule in exported drawings, are parsed once. */
export class InlineStyles {
  private readonly cache = new Map<string, readonly Declaration[]>();

  read(text: string): readonly Declaration[] {
    const known = this.cache.get(text);
    if (known !== undefined) return known;
    const tree = parseOrNull(text, 'declarationList', () => {});
    const declarations = tree === null ? [] : declarationsOf(tree);
    if (this.cache.size < 5000) this.cache.set(text, declarations);
    return declarations;
  }
}

/** `--name`, whose case counts. */
export function isCustom(property: string): boolean {
  return property.startsWith('--');
}

function declarationsOf(block: CssNode): Declaration[] {
  if (block.type !== 'Block' && block.type !== 'DeclarationList') return [];
  const found: Declaration[] = [];
  for (const node of block.children) {
    if (node.type !== 'Declaration') continue;
    const value = node.value.type === 'Raw' ? node.value.value : generate(node.value);
    const property = isCustom(node.property) ? node.property : node.property.toLowerCase();
    found.push({ property, value: value.trim(), isImportant: node.important !== false });
  }
  return found;
}

/** The parser descends recursively: absurdly nested sheets overflow it, which must not take the reader down. */
function parseOrNull(text: string, context: 'stylesheet' | 'declarationList', onError: () => void): CssNode | null {
  try {
    return parse(text, { context, parseValue: false, parseCustomProperty: false, onParseError: onError });
  } catch (error) {
    if (error instanceof RangeError || error instanceof SyntaxError) return null;
    throw error;
  }
}
