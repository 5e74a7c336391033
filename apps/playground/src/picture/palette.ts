import { useSyncExternalStore } from 'react';
import type { Tone } from './ink.ts';
import type { Palette } from './paint.ts';

const TONES: readonly Tone[] = [
  'ink',
  'soft',
  'rule',
  'paper',
  'card',
  'wood',
  'board',
  'grain',
  'good',
  'look',
  'mark',
  'number',
  'shade',
  'glass',
];

let known: { key: string; palette: Palette } | null = null;

/** The page's tones as the style sheet has them now; the same object until the look changes. */
function currentPalette(): Palette {
  const style = getComputedStyle(document.documentElement);
  const values = TONES.map((tone) => style.getPropertyValue(`--${tone}`).trim());
  const key = values.join('|');
  if (known?.key !== key) {
    known = { key, palette: Object.fromEntries(TONES.map((tone, index) => [tone, values[index]!])) as Palette };
  }
  return known.palette;
}

function onLookChange(listener: () => void): () => void {
  const media = matchMedia('(prefers-color-scheme: dark)');
  const observer = new MutationObserver(listener);
  media.addEventListener('change', listener);
  observer.observe(document.documentElement, { attributes: true, attributeFilter: ['data-look'] });
  return () => {
    media.removeEventListener('change', listener);
    observer.disconnect();
  };
}

/** The tones for drawing; changes with light and dark. */
export function usePalette(): Palette {
  return useSyncExternalStore(onLookChange, currentPalette);
}
