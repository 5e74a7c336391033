/** How the user's language writes numbers. */
export interface NumberStyle {
  readonly locale: string;
  readonly decimal: string;
  readonly group: string;
}

/** Separators of a locale, asked from the platform. */
export function numberStyle(locale: string): NumberStyle {
  const parts = new Intl.NumberFormat(locale).formatToParts(12345.6);
  const find = (type: string): string | undefined => parts.find((part) => part.type === type)?.value;
  return { locale, decimal: find('decimal') ?? '.', group: find('group') ?? '' };
}

/** Making a formatter takes a hundred times as long as using it. */
const formatters = new Map<string, Intl.NumberFormat>();

function formatter(locale: string, kind: 'decimal' | 'percent', decimals: number): Intl.NumberFormat {
  const key = `${locale} ${kind} ${decimals}`;
  const known = formatters.get(key);
  if (known !== undefined) return known;
  // a share is written with all its decimals, as the report does: 69.0 and 69.3 are seen to be of one kind
  const least = kind === 'percent' ? decimals : 0;
  const made = new Intl.NumberFormat(locale, {
    style: kind,
    minimumFractionDigits: least,
    maximumFractionDigits: decimals,
  });
  formatters.set(key, made);
  return made;
}

export function formatNumber(value: number, style: NumberStyle, decimals: number): string {
  return formatter(style.locale, 'decimal', decimals).format(value);
}

export function formatPercent(share: number, style: NumberStyle, decimals = 0): string {
  return formatter(style.locale, 'percent', decimals).format(share);
}

/**
 * Read a number as the locale writes it. A single point or comma that cannot be a group separator (other than three digits
 * follow) is taken as the decimal sign too, since keypads and copied figures carry either.
 * @returns null when the text is not a number.
 */
export function parseNumber(text: string, style: NumberStyle): number | null {
  let plain = text.trim().replace(/[\s\u00a0\u202f']/g, '');
  if (plain === '') return null;
  plain = plain.replace(/^[\u2212\u2013]/, '-');
  const foreign = style.decimal === ',' ? '.' : ',';
  const isForeignDecimal =
    plain.split(foreign).length === 2 && !plain.includes(style.decimal) && !/^-?\d{1,3}[.,]\d{3}$/.test(plain);
  if (isForeignDecimal) plain = plain.replace(foreign, '.');
  else plain = plain.replaceAll(foreign, '').replace(style.decimal, '.');
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(plain)) return null;
  const value = Number(plain);
  return Number.isFinite(value) ? value : null;
}
