import { describe, expect, it } from 'vitest';
import type { Picture } from './ink.ts';
import { packPicture, unpackPicture } from './packed.ts';

describe('a picture on its way to another thread', () => {
  const picture: Pick<Picture, 'inks' | 'captions'> = {
    inks: [
      { d: 'M0 0h9v9z', spot: { x: 1, y: 2, turnDeg: 90, mirrored: true }, fill: '#123456', key: 'placement a#1' },
      { d: 'M5 5h1', stroke: 'ink', widthPx: 2, dashPx: [4, 2], alpha: 0.5 },
      { d: 'M0 0h9v9z', fill: 'good' },
    ],
    captions: [{ text: 'Sheet 1', x: 0, y: 0, sizePx: 11, align: 'left', tint: 'soft', leastScale: 0.3 }],
  };

  it('comes out as it went in', () => {
    expect(unpackPicture(packPicture(picture))).toEqual(picture);
  });

  it('carries equal outlines once', () => {
    expect(packPicture(picture).paths).toEqual(['M0 0h9v9z', 'M5 5h1']);
  });
});
