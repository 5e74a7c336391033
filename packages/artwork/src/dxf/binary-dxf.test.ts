import { contourArea } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import { binaryDxfBytes } from '../../testing/binary-dxf-bytes.ts';
import { everythingText } from '../../testing/dxf-mutations.ts';
import { groupsText } from '../../testing/dxf-text.ts';
import { artworkText } from '../artwork-text.ts';
import type { Drawing } from '../drawing.ts';
import { ArtworkError } from '../error.ts';
import { readArtwork } from '../read-artwork.ts';

/** Groups of a text DXF. */
function groupsOf(text: string): (string | number)[] {
  const lines = text.split('\n').slice(0, -1);
  return lines.map((line, i) => (i % 2 === 0 ? Number(line) : line.trim()));
}

const read = (input: string | Uint8Array): Drawing => readArtwork(input, { name: 'boat.dxf' });
const summary = ({ size, shapes, complaints }: Drawing) => ({
  size,
  shapes: shapes.map(({ layer, stroke, contours }) => [
    layer,
    stroke,
    ...contours.map((contour) => contourArea(contour)),
  ]),
  complaints: complaints.map(({ code }) => code),
});

describe('a binary DXF', () => {
  it.each([
    ['of R12', true],
    ['of later programs', false],
  ])('%s reads like the text that says the same', (_, isOld) => {
    const text = everythingText();
    const bytes = binaryDxfBytes(groupsOf(text), isOld);
    expect(summary(read(bytes))).toEqual(summary(read(text)));
    expect(summary(read(artworkText(bytes)))).toEqual(summary(read(text)));
  });

  it('may hold flags, true colours, binary chunks, extended data and names of any language', () => {
    const groups = [
      ...[0, 'SECTION', 2, 'HEADER', 9, '$INSUNITS', 70, 4, 0, 'ENDSEC', 0, 'SECTION', 2, 'ENTITIES'],
      ...[0, 'CIRCLE', 5, '2F', 8, 'möwe', 310, 'abc', 290, 1, 420, 0x00b5e3, 10, 5.25, 20, -7, 40, 25],
      ...[1001, 'ANY', 1071, 70000, 1040, 0, 0, 'ENDSEC', 0, 'EOF'],
    ].filter((_, i, all) => !(all[i - (i % 2)] === 1040));
    const [shape] = read(binaryDxfBytes(groups, false)).shapes;
    expect(shape).toMatchObject({ layer: 'möwe', stroke: '#00b5e3' });
    expect(contourArea(shape!.contours[0]!)).toBeCloseTo(-Math.PI * 625, 9);
  });

  it('that is cut off anywhere is read as far as it goes and told, or refused; never read as whole', () => {
    const bytes = binaryDxfBytes(groupsOf(everythingText()), false);
    const outcomes = { told: 0, refused: 0 };
    for (let end = 10; end < bytes.length - 4; end += 13) {
      try {
        const { complaints } = read(bytes.subarray(0, end));
        expect(complaints.some(({ code, severity }) => severity === 'error' && /truncated|broken/.test(code))).toBe(
          true,
        );
        outcomes.told++;
      } catch (error) {
        expect(error).toBeInstanceOf(ArtworkError);
        outcomes.refused++;
      }
    }
    expect(outcomes.told).toBeGreaterThan(20);
    expect(outcomes.refused).toBeGreaterThan(20);
  });

  it('that was decoded as text by somebody else is refused with a sentence', () => {
    const bytes = binaryDxfBytes(groupsOf(everythingText()), false);
    expect(() => read(new TextDecoder().decode(bytes))).toThrow(/boat\.dxf/);
    expect(groupsText(groupsOf(everythingText()))).toBe(everythingText());
  });
});
