import { IntlMessageFormat } from 'intl-messageformat';
import { formatLengthUnit, formatSize, type LengthUnit } from '../units/length.ts';
import { formatNumber, formatPercent, type NumberStyle } from '../units/number.ts';
import { CATALOGUE, type Places, type WordKey } from './catalogue.ts';
import type { Language } from './phrase.ts';

/** Values of a phrase; left out where the phrase has no places. */
export type Filled<Key extends WordKey, Value> = keyof Places<Key, Value> extends never
  ? []
  : [places: Places<Key, Value>];

/** How things are said to this user: phrases in their language, figures in their units. */
export interface Say {
  readonly language: Language;
  /** A phrase as plain text; numbers in places of a plural as numbers, other figures said already. */
  t<Key extends WordKey>(key: Key, ...places: Filled<Key, string | number>): string;
  /** The phrase as a message, for those who fill its places with more than text. */
  message(key: WordKey): IntlMessageFormat;
  length(mm: number, decimals?: number): string;
  size(width: number, height: number): string;
  number(value: number, decimals?: number): string;
  percent(share: number, decimals?: number): string;
  date(time: number): string;
  /** 'a, b and c' */
  list(words: readonly string[]): string;
}

export interface Manner {
  readonly language: Language;
  readonly unit: LengthUnit;
  readonly numbers: NumberStyle;
}

export function sayIn({ language, unit, numbers }: Manner): Say {
  // a phrase is parsed when it is first said
  const messages = new Map<WordKey, IntlMessageFormat>();
  const message = (key: WordKey): IntlMessageFormat => {
    const known = messages.get(key);
    if (known !== undefined) return known;
    const made = new IntlMessageFormat(CATALOGUE[key][language], numbers.locale);
    messages.set(key, made);
    return made;
  };
  const t: Say['t'] = (key, ...[places]) => String(message(key).format<string>(places));
  const unitWord = (): string => t(`unit.${unit}`);
  return {
    language,
    t,
    message,
    length: (mm, decimals = 1) => formatLengthUnit(mm, unit, numbers, decimals, unitWord()),
    size: (width, height) => formatSize(width, height, unit, numbers, unitWord()),
    number: (value, decimals = 0) => formatNumber(value, numbers, decimals),
    percent: (share, decimals = 0) => formatPercent(share, numbers, decimals),
    date: (time) => new Date(time).toLocaleString(numbers.locale, { dateStyle: 'medium', timeStyle: 'short' }),
    list: (words) => new Intl.ListFormat(language, { type: 'conjunction' }).format(words),
  };
}
