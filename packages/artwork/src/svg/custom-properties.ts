/** Longest value that references may grow to: each may hold several others, so that a few lines could fill the memory. */
const LONGEST_VALUE = 10_000;

/** Deepest chain of references; hand-made sheets stay below 5. Cycles end here. */
const DEEPEST = 32;

/** Most references that are followed for one value: empty values may be multiplied without growing. */
const MOST_REFERENCES = 1000;

/**
 * A value with its `var(--name, fallback)` references replaced. Source: CSS Custom Properties for Cascading Variables Level 1.
 * @param lookUp - the computed or written value of a custom property; undefined when it has none.
 * @returns null when the value is invalid at computed-value time: an unknown name without fallback, a cycle, no end.
 */
export function withReferences(value: string, lookUp: (name: string) => string | undefined): string | null {
  return value.includes('var(') ? new Substitution(lookUp).of(value, 0) : value;
}

class Substitution {
  private readonly lookUp: (name: string) => string | undefined;
  private followed = 0;

  constructor(lookUp: (name: string) => string | undefined) {
    this.lookUp = lookUp;
  }

  of(value: string, depth: number): string | null {
    if (depth > DEEPEST) return null;
    let out = '';
    let at = 0;
    for (;;) {
      const from = value.indexOf('var(', at);
      if (from < 0) return bounded(out + value.slice(at));
      const end = closingParenthesis(value, from + 4);
      if (end < 0 || ++this.followed > MOST_REFERENCES) return null;
      const [name, fallback] = argumentsOf(value.slice(from + 4, end));
      const found = this.lookUp(name) ?? fallback;
      const inner = found === null ? null : this.of(found, depth + 1);
      if (inner === null) return null;
      out += value.slice(at, from) + inner;
      if (out.length > LONGEST_VALUE) return null;
      at = end + 1;
    }
  }
}

function bounded(value: string): string | null {
  return value.length > LONGEST_VALUE ? null : value.trim();
}

/** The name, and what follows the first comma. */
function argumentsOf(text: string): [string, string | null] {
  const comma = text.indexOf(',');
  return comma < 0 ? [text.trim(), null] : [text.slice(0, comma).trim(), text.slice(comma + 1).trim()];
}

function closingParenthesis(text: string, from: number): number {
  let depth = 1;
  for (let i = from; i < text.length; i++) {
    if (text[i] === '(') depth++;
    else if (text[i] === ')' && --depth === 0) return i;
  }
  return -1;
}
