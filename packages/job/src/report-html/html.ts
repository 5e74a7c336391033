/** Text that is safe to stand in a page as it is. */
export class Html {
  constructor(readonly text: string) {}
}

type Value = Html | string | number | null | readonly (Html | string | number | null)[];

/**
 * Markup with every value escaped unless it is markup itself; lists are joined, null vanishes. Values stand in text or in
 * double-quoted attributes only.
 */
export function html(parts: TemplateStringsArray, ...values: readonly Value[]): Html {
  const text = parts.reduce(
    (sum, part, index) => sum + part + (index < values.length ? written(values[index]!) : ''),
    '',
  );
  return new Html(text);
}

/** Markup that comes from this program itself, such as a style sheet. */
export function trusted(text: string): Html {
  return new Html(text);
}

function written(value: Value): string {
  if (value === null) return '';
  if (value instanceof Html) return value.text;
  if (typeof value === 'string') return escapeHtml(value);
  if (typeof value === 'number') return String(value);
  return value.map(written).join('');
}

/** Safe in text and in quoted attributes, in HTML and in SVG; characters that XML forbids are replaced. */
export function escapeHtml(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are exactly what must not reach the page
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '\ufffd')
      .replace(/&/g, '&amp;')
      .replace(/</g, '&lt;')
      .replace(/>/g, '&gt;')
      .replace(/"/g, '&quot;')
      .replace(/'/g, '&#39;')
  );
}
