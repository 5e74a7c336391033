import type { Say } from '../words/say.ts';
import type { KindView, PartView, PlacementView } from '../workers/views.ts';
import type { HungSheet } from './wall.ts';

/** What is written into pictures, and what things in them are called. */
export interface PictureWords {
  part(part: PartView): string;
  placement(kind: KindView, placement: PlacementView, sheet: number): string;
  sheet(hung: HungSheet): string;
  readonly pinned: string;
}

/** For small pictures and files, in which nothing is written or called anything. */
export const NO_WORDS: PictureWords = { part: () => '', placement: () => '', sheet: () => '', pinned: '' };

/** In the words of the user. */
export function pictureWords(say: Say): PictureWords {
  const paintOf = (paint: string | null): string =>
    paint === null ? say.t('thing.bare') : say.t('thing.paint', { paint });
  return {
    part: ({ name, layer, paint }) =>
      layer === null
        ? say.t('thing.part', { name, paint: paintOf(paint) })
        : say.t('thing.part-layer', { name, layer, paint: paintOf(paint) }),
    placement: ({ name, number, layer, paint }, { sign }, index) => {
      const places = { name, number, sheet: index + 1, sign, paint: paintOf(paint) };
      return layer === null ? say.t('boards.placement', places) : say.t('boards.placement-layer', { ...places, layer });
    },
    sheet: ({ sheet, index, times }) => {
      const places = {
        n: index + 1,
        size: say.size(sheet.width, sheet.height),
        share: say.percent(sheet.yield, 1),
      };
      return times === 1 ? say.t('boards.sheet', places) : say.t('boards.sheet-times', { ...places, times });
    },
    pinned: say.t('boards.pinned'),
  };
}
