import { type KeyboardEvent, useContext, useId, useState } from 'react';
import { createPortal } from 'react-dom';
import { ProblemSlot } from './problem-slot.ts';

interface TypedPlaceProps<T> {
  /** What a screen reader says; the sentence around it says it for the eye. */
  readonly label: string;
  readonly value: T;
  format(value: T): string;
  /** The value, or a sentence that says what would be allowed. */
  parse(text: string): { readonly value: T } | { readonly problem: string };
  onChange(value: T): void;
  readonly suffix?: string;
  readonly inputMode?: 'decimal' | 'numeric' | 'text';
  /** Arrow up and down change by this; omitted for text. */
  step?(value: T, direction: 1 | -1): T;
  readonly placeholder?: string;
}

/**
 * An editable place in a sentence: an ordinary labelled input. What is typed counts once Enter is pressed or the place is left;
 * Escape takes it back; what cannot be used stays in the place and is explained below the sentence.
 */
export function TypedPlace<T>({
  label,
  value,
  format,
  parse,
  onChange,
  suffix,
  inputMode,
  step,
  placeholder,
}: TypedPlaceProps<T>) {
  const [draft, setDraft] = useState<string | null>(null);
  const id = useId();
  const slot = useContext(ProblemSlot);
  const shown = draft ?? format(value);
  const parsed = draft === null ? null : parse(draft);
  const problem = parsed !== null && 'problem' in parsed ? parsed.problem : null;

  const commit = (): void => {
    if (parsed === null || 'problem' in parsed) return;
    setDraft(null);
    if (format(parsed.value) !== format(value)) onChange(parsed.value);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'Enter') commit();
    if (event.key === 'Escape' && draft !== null) {
      event.stopPropagation();
      setDraft(null);
    }
    if (step !== undefined && (event.key === 'ArrowUp' || event.key === 'ArrowDown')) {
      const base = parsed !== null && 'value' in parsed ? parsed.value : value;
      const next = parse(format(step(base, event.key === 'ArrowUp' ? 1 : -1)));
      event.preventDefault();
      if ('value' in next) {
        setDraft(null);
        onChange(next.value);
      }
    }
  };

  const told =
    problem === null ? null : (
      <span className="place-problem" id={id} role="alert">
        {problem}
      </span>
    );

  return (
    <span className="place">
      <input
        className="place-input"
        type="text"
        inputMode={inputMode ?? 'text'}
        aria-label={label}
        aria-invalid={problem === null ? undefined : true}
        aria-describedby={problem === null ? undefined : id}
        autoComplete="off"
        spellCheck={false}
        size={Math.max(shown.length, placeholder?.length ?? 0, 2)}
        placeholder={placeholder}
        value={shown}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={commit}
        onKeyDown={onKeyDown}
      />
      {suffix === undefined ? null : <span className="place-unit">{suffix}</span>}
      {told === null || slot === null ? told : createPortal(told, slot)}
    </span>
  );
}
