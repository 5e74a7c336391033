import { useId } from 'react';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { formatLength, parseLength, stepOf } from '../units/length.ts';
import { formatNumber, parseNumber } from '../units/number.ts';
import { TypedPlace } from './typed-place.tsx';

interface LengthPlaceProps {
  readonly label: string;
  /** mm */
  readonly value: number;
  readonly least: number;
  readonly most: number;
  onChange(mm: number): void;
  /** Leave the unit to the next place ('520 x 320 mm'). */
  readonly isBare?: boolean;
}

/** A length in the user's unit. */
export function LengthPlace({ label, value, least, most, onChange, isBare }: LengthPlaceProps) {
  const { unit, numbers } = useValue(useSession().preferences);
  const say = useSay();
  const unitWord = say.t(`unit.${unit}`);
  return (
    <TypedPlace
      label={say.t('place.in-unit', { label, unit: unitWord })}
      value={value}
      format={(mm) => formatLength(mm, unit, numbers)}
      parse={(text) => {
        const mm = parseLength(text, unit, numbers);
        const range = { least: say.length(least, 2), most: say.length(most, 2) };
        if (mm === null) return { problem: say.t('place.not-a-length', range) };
        if (mm < least || mm > most) return { problem: say.t('place.length-range', range) };
        return { value: mm };
      }}
      step={(mm, direction) => Math.min(Math.max(mm + direction * stepOf(value, unit), least), most)}
      onChange={onChange}
      inputMode="decimal"
      {...(isBare === true ? {} : { suffix: unitWord })}
    />
  );
}

interface NumberPlaceProps {
  readonly label: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly decimals?: number;
  onChange(value: number): void;
  readonly suffix?: string;
}

/** A plain number; whole unless `decimals` is given. */
export function NumberPlace({ label, value, least, most, decimals = 0, onChange, suffix }: NumberPlaceProps) {
  const { numbers } = useValue(useSession().preferences);
  const say = useSay();
  return (
    <TypedPlace
      label={label}
      value={value}
      format={(number) => formatNumber(number, numbers, decimals)}
      parse={(text) => {
        const number = parseNumber(text, numbers);
        if (number === null || (decimals === 0 && !Number.isInteger(number)) || number < least || number > most) {
          const range = { least: say.number(least, decimals), most: say.number(most, decimals) };
          return { problem: say.t(decimals === 0 ? 'place.whole-range' : 'place.number-range', range) };
        }
        return { value: number };
      }}
      step={(number, direction) => Math.min(Math.max(number + direction, least), most)}
      onChange={onChange}
      inputMode={decimals === 0 ? 'numeric' : 'decimal'}
      {...(suffix === undefined ? {} : { suffix })}
    />
  );
}

/** A number or nothing ('any number of'). An empty place means nothing. */
export function CountPlace({
  label,
  value,
  empty,
  onChange,
}: {
  readonly label: string;
  readonly value: number | null;
  readonly empty: string;
  onChange(value: number | null): void;
}) {
  const say = useSay();
  return (
    <TypedPlace<number | null>
      label={say.t('place.or-empty', { label, empty })}
      value={value}
      format={(count) => (count === null ? '' : String(count))}
      parse={(text) => {
        if (text.trim() === '') return { value: null };
        const count = Number(text);
        if (!Number.isInteger(count) || count < 0 || count > 100_000) {
          return { problem: say.t('place.count', { empty }) };
        }
        return { value: count };
      }}
      onChange={onChange}
      inputMode="numeric"
      placeholder={empty}
    />
  );
}

export interface Choice<T extends string> {
  readonly value: T;
  readonly words: string;
}

/** One of a few; the words read on as part of the sentence. */
export function ChoicePlace<T extends string>({
  label,
  value,
  choices,
  onChange,
}: {
  readonly label: string;
  readonly value: T;
  readonly choices: readonly Choice<T>[];
  onChange(value: T): void;
}) {
  return (
    <span className="place">
      <select
        className="place-choice"
        aria-label={label}
        value={value}
        onChange={(event) => {
          const next = choices.find((choice) => choice.value === event.target.value);
          if (next !== undefined) onChange(next.value);
        }}
      >
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.words}
          </option>
        ))}
      </select>
    </span>
  );
}

/** A plain yes or no with its words. */
export function TickPlace({
  words,
  value,
  onChange,
}: {
  readonly words: string;
  readonly value: boolean;
  onChange(value: boolean): void;
}) {
  const id = useId();
  return (
    <span className="tick">
      <input id={id} type="checkbox" checked={value} onChange={(event) => onChange(event.target.checked)} />
      <label htmlFor={id}>{words}</label>
    </span>
  );
}

/** A longer name fits no line. */
const MOST_LETTERS = 120;

/** Free words. */
export function WordsPlace({
  label,
  value,
  onChange,
  placeholder,
}: {
  readonly label: string;
  readonly value: string;
  onChange(value: string): void;
  readonly placeholder?: string;
}) {
  const say = useSay();
  return (
    <TypedPlace
      label={label}
      value={value}
      format={(text) => text}
      parse={(text) =>
        text.length > MOST_LETTERS ? { problem: say.t('place.too-long', { n: MOST_LETTERS }) } : { value: text.trim() }
      }
      onChange={onChange}
      {...(placeholder === undefined ? {} : { placeholder })}
    />
  );
}
