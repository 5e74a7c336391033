import { useMemo } from 'react';
import { type PictureWords, pictureWords } from '../picture/picture-words.ts';
import { useSay } from '../state/use-say.ts';

/** What is written into pictures, in the user's words. */
export function usePictureWords(): PictureWords {
  const say = useSay();
  return useMemo(() => pictureWords(say), [say]);
}
