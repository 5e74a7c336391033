import type { Area } from './phrase.ts';

/** The drawing in front: its ruler, its buttons, its keys. */
export const SCENE_WORDS = {
  'scene.keys': {
    en: 'Arrow keys move the drawing, plus and minus zoom, 0 shows all, n and p choose the next and the previous piece, Escape chooses none.',
    de: 'Pfeiltasten bewegen die Zeichnung, Plus und Minus ändern die Größe, 0 zeigt alles, n und p wählen das nächste und das vorige Stück, Escape wählt keins.',
  },
  'scene.closer': { en: 'Closer', de: 'Näher' },
  'scene.farther': { en: 'Farther', de: 'Weiter weg' },
  'scene.whole': { en: 'Whole', de: 'Ganz' },
  'scene.ruler': { en: 'Scale: this bar is {length} long', de: 'Maßstab: dieser Balken ist {length} lang' },
} as const satisfies Area;
