import { describe, expect, it } from 'vitest';
import { copyName, parseCopyName } from './copy.ts';

describe('names of copies', () => {
  it.each([
    { pieceId: 'backer.a', copy: 1 },
    { pieceId: 'gull #2', copy: 12 },
    { pieceId: 'a#1', copy: 3 },
  ])('come back as they went: $pieceId, copy $copy', (ref) => {
    expect(parseCopyName(copyName(ref))).toEqual(ref);
  });

  it.each(['backer', 'backer#', '#1', 'backer#0', 'backer#01', 'backer#1.5', 'backer#-1', 'backer#1 '])(
    'are refused where they name no copy: %s',
    (text) => {
      expect(parseCopyName(text)).toBeNull();
    },
  );
});
