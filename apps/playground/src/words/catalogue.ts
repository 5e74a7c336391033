import { ARTWORK_WORDS } from './artwork.ts';
import { BOARDS_WORDS } from './boards.ts';
import { COMPARE_WORDS } from './compare.ts';
import { FILES_WORDS } from './files.ts';
import { FINISH_WORDS } from './finish.ts';
import { LEAD_WORDS } from './lead.ts';
import { LETTERING_WORDS } from './lettering.ts';
import { LOADING_WORDS } from './loadings.ts';
import { MATTER_WORDS } from './matters.ts';
import { NOTICE_WORDS } from './notices.ts';
import { PACKS_WORDS } from './packs.ts';
import { PAGE_WORDS } from './page.ts';
import type { PlaceNames } from './phrase.ts';
import { PLACE_WORDS } from './places.ts';
import { SCENE_WORDS } from './scene.ts';
import { SHELF_FILE_WORDS } from './shelf.ts';
import { SHOP_WORDS } from './shop.ts';
import { SPLIT_WORDS } from './split.ts';
import { STACK_WORDS } from './stack.ts';
import { WELCOME_WORDS } from './welcome.ts';

/** Everything the page says. */
export const CATALOGUE = {
  ...PAGE_WORDS,
  ...WELCOME_WORDS,
  ...LEAD_WORDS,
  ...PLACE_WORDS,
  ...NOTICE_WORDS,
  ...MATTER_WORDS,
  ...LOADING_WORDS,
  ...SCENE_WORDS,
  ...ARTWORK_WORDS,
  ...LETTERING_WORDS,
  ...STACK_WORDS,
  ...SPLIT_WORDS,
  ...BOARDS_WORDS,
  ...FILES_WORDS,
  ...FINISH_WORDS,
  ...SHOP_WORDS,
  ...PACKS_WORDS,
  ...SHELF_FILE_WORDS,
  ...COMPARE_WORDS,
} as const;

export type WordKey = keyof typeof CATALOGUE;

/** What fills the places of a phrase: all of them, and nothing else. */
export type Places<Key extends WordKey, Value> = Readonly<Record<PlaceNames<(typeof CATALOGUE)[Key]['en']>, Value>>;
