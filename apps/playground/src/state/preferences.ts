import type { LengthUnit } from '../units/length.ts';
import { type NumberStyle, numberStyle } from '../units/number.ts';
import { type Observable, observable } from './observable.ts';

/** How a person likes the page; belongs to the browser, not to a job. */
export interface Preferences {
  readonly unit: LengthUnit;
  readonly look: 'system' | 'light' | 'dark';
  readonly numbers: NumberStyle;
}

const KEY = 'underlap-preferences';

/** The preferences as kept by this browser; a browser that keeps nothing gets the defaults each time. */
export function startPreferences(): Observable<Preferences> {
  const kept = readKept();
  const preferences = observable<Preferences>({
    unit: kept.unit ?? 'mm',
    look: kept.look ?? 'system',
    numbers: numberStyle(navigator.language),
  });
  const show = (): void => {
    const { unit, look } = preferences.get();
    if (look === 'system') delete document.documentElement.dataset.look;
    else document.documentElement.dataset.look = look;
    try {
      localStorage.setItem(KEY, JSON.stringify({ unit, look }));
    } catch {
      // a browser that refuses storage still shows the page as asked
    }
  };
  show();
  preferences.subscribe(show);
  return preferences;
}

function readKept(): { unit?: LengthUnit; look?: Preferences['look'] } {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return {};
    const { unit, look } = kept as { unit?: unknown; look?: unknown };
    return {
      ...(unit === 'mm' || unit === 'in' ? { unit } : {}),
      ...(look === 'system' || look === 'light' || look === 'dark' ? { look } : {}),
    };
  } catch {
    return {};
  }
}
