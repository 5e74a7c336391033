import { isLengthUnit, type LengthUnit } from '../units/length.ts';
import { type NumberStyle, numberStyle } from '../units/number.ts';
import { LANGUAGES, type Language } from '../words/phrase.ts';
import { type Observable, observable } from './observable.ts';

/** How a person likes the page; belongs to the browser, not to a job. */
export interface Preferences {
  readonly unit: LengthUnit;
  readonly look: 'system' | 'light' | 'dark';
  /** Has not yet opened a drawing of their own, nor said that they know their way. */
  readonly isNewcomer: boolean;
  readonly language: Language;
  /** Of the language, as the user's country writes it. */
  readonly numbers: NumberStyle;
}

const KEY = 'underlap-preferences';

/** The preferences as kept by this browser; a browser that keeps nothing gets the defaults each time. */
export function startPreferences(): Observable<Preferences> {
  const kept = readKept();
  const preferences = observable<Preferences>({
    unit: kept.unit ?? 'mm',
    look: kept.look ?? 'system',
    isNewcomer: kept.isNewcomer ?? true,
    ...inLanguage(kept.language ?? wantedLanguage()),
  });
  const show = (): void => {
    const { unit, look, isNewcomer, language } = preferences.get();
    document.documentElement.lang = language;
    if (look === 'system') delete document.documentElement.dataset.look;
    else document.documentElement.dataset.look = look;
    try {
      localStorage.setItem(KEY, JSON.stringify({ unit, look, isNewcomer, language }));
    } catch {
      // a browser that refuses storage still shows the page as asked
    }
  };
  show();
  preferences.subscribe(show);
  return preferences;
}

/** The first of the languages the browser asks for that the page speaks. */
function wantedLanguage(): Language {
  const wanted = navigator.languages.map((tag) => tag.slice(0, 2).toLowerCase());
  return wanted.flatMap((tag) => LANGUAGES.filter((language) => language === tag))[0] ?? 'en';
}

/** A language with its numbers; of one country, when the browser is set to it. */
export function inLanguage(language: Language): Pick<Preferences, 'language' | 'numbers'> {
  const isOwn = navigator.language.toLowerCase().startsWith(language);
  return { language, numbers: numberStyle(isOwn ? navigator.language : language) };
}

function readKept(): Partial<Pick<Preferences, 'unit' | 'look' | 'isNewcomer' | 'language'>> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return {};
    const { unit, look, isNewcomer, language } = kept as Readonly<Record<keyof Preferences, unknown>>;
    return {
      ...(isLengthUnit(unit) ? { unit } : {}),
      ...(look === 'system' || look === 'light' || look === 'dark' ? { look } : {}),
      ...(typeof isNewcomer === 'boolean' ? { isNewcomer } : {}),
      ...(language === 'en' || language === 'de' ? { language } : {}),
    };
  } catch {
    return {};
  }
}
