import 'jsts/org/locationtech/jts/monkey.js';
import { readFileSync } from 'node:fs';
import type { Contour } from '@underlap/geometry/curve';
import { flattenContour } from '@underlap/geometry/flatten';
import type { JobInput } from '@underlap/job/document';
import { jobFrom } from '@underlap/job/parse-job';
import { Pipeline } from '@underlap/job/pipeline';
import { planJob } from '@underlap/job/plan-job';
import { cutFiles } from '@underlap/job/sheet-drawings';
import type { CutPiece } from '@underlap/job/stages';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import DistanceOp from 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js';
import { describe, expect, it } from 'vitest';
import { randomSign } from './support/random-sign.ts';

/** Burnt lines nearer than this run into one, mm. */
const APART_MM = 0.5;

const factory = new GeometryFactory();

function lineOf(contour: Contour) {
  const points = flattenContour(contour, 0.02);
  const coordinates = Array.from(
    { length: points.length / 2 },
    (_, i) => new Coordinate(points[2 * i]!, points[2 * i + 1]!),
  );
  if (contour.closed) coordinates.push(coordinates[0]!);
  return factory.createLineString(coordinates);
}

const distance = (a: readonly Contour[], b: readonly Contour[]): number =>
  Math.min(
    Number.POSITIVE_INFINITY,
    ...a.flatMap((one) => b.map((other) => DistanceOp.distance(lineOf(one), lineOf(other)))),
  );

/** Numbers and letters, and how many of them run into another mark of their piece. */
function overprints(pieces: readonly CutPiece[]): { readonly texts: number; readonly overprinted: string[] } {
  let texts = 0;
  const overprinted: string[] = [];
  for (const piece of pieces) {
    for (const mark of piece.marks) {
      if (mark.kind !== 'number' && mark.kind !== 'seam-label') continue;
      texts++;
      const others = piece.marks.filter((other) => other !== mark).flatMap((other) => other.contours);
      if (distance(mark.contours, others) < APART_MM) overprinted.push(`${mark.kind} ${mark.label} on ${piece.id}`);
    }
  }
  return { texts, overprinted };
}

async function cutPieces(input: JobInput): Promise<readonly CutPiece[]> {
  const { pieces } = await new Pipeline().cut(jobFrom(input, 'marks'), {});
  return pieces;
}

const textOf = (name: string): string => readFileSync(new URL(`../samples/${name}.svg`, import.meta.url), 'utf8');

describe('numbers and seam letters', () => {
  it.each(['harbour-sign', 'round-sign', 'wide-sign', 'harbour-spread'])('overprint nothing on %s', async (name) => {
    const pieces = await cutPieces({ artwork: { text: textOf(name), name }, bed: '400x400', boards: ['500x400'] });
    const { texts, overprinted } = overprints(pieces);
    expect(texts).toBeGreaterThan(2);
    expect(overprinted).toEqual([]);
  });

  it('overprint nothing on made-up signs, hidden or on the face', async () => {
    let texts = 0;
    for (let seed = 1; seed <= 8; seed++) {
      const pieces = await cutPieces({
        artwork: { text: randomSign(seed, 380, 300).svg, name: `sign ${seed}` },
        bed: '460x400',
        boards: ['460x400'],
        marks: { numbers: seed % 2 === 0 ? 'all' : 'hidden' },
      });
      const found = overprints(pieces);
      texts += found.texts;
      expect({ seed, overprinted: found.overprinted }).toEqual({ seed, overprinted: [] });
    }
    expect(texts).toBeGreaterThan(20);
  });
});

describe('numbers in the waste', () => {
  const input: JobInput = {
    artwork: { text: textOf('wide-sign'), name: 'wide-sign' },
    bed: '600x420',
    boards: ['600x420'],
    batch: 1,
    effort: 40,
  };

  it('stand beside every bare piece that has room, clear of cuts, of one another and of the wood of pieces', async () => {
    const job = jobFrom(input, 'waste');
    const { stocks, report } = await planJob(job);
    const { layout, pieces } = stocks![0]!;
    const drawings = cutFiles(layout, pieces, job, 'waste').map(({ drawing }) => drawing);
    const bare = new Set(
      pieces.filter((piece) => !piece.marks.some(({ kind }) => kind === 'number')).map(({ id }) => id),
    );
    let found = 0;
    for (const drawing of drawings) {
      const cuts = drawing.paths.filter(({ process }) => process === 'cut-outer' || process === 'cut-inner');
      const byPiece = new Map<string, Contour[]>();
      for (const { role, pieceId, contour } of drawing.paths) {
        if (role !== 'number' || !bare.has(pieceId.replace(/#\d+$/, ''))) continue;
        byPiece.set(pieceId, [...(byPiece.get(pieceId) ?? []), contour]);
      }
      found += byPiece.size;
      for (const [pieceId, contours] of byPiece) {
        expect(
          distance(
            contours,
            cuts.map(({ contour }) => contour),
          ),
        ).toBeGreaterThan(0.9);
        const others = [...byPiece].filter(([id]) => id !== pieceId).flatMap(([, lines]) => lines);
        if (others.length > 0) expect(distance(contours, others)).toBeGreaterThan(APART_MM);
        const start = contours[0]!.start;
        const point = factory.createPoint(new Coordinate(start.x, start.y));
        for (const { contour } of cuts.filter(({ process }) => process === 'cut-outer')) {
          const around = factory.createPolygon(lineOf(contour).getCoordinates());
          const holes = cuts
            .filter(({ process }) => process === 'cut-inner')
            .map((hole) => factory.createPolygon(lineOf(hole.contour).getCoordinates()));
          expect(around.contains(point) && !holes.some((hole) => hole.contains(point))).toBe(false);
        }
      }
    }
    expect(bare.size).toBeGreaterThan(8);
    expect(found).toBeGreaterThan(bare.size / 2);
    expect(report.messages.join(' ')).toContain(`${found} pieces have no hidden face`);
  });

  it('can be left out', async () => {
    const job = jobFrom({ ...input, marks: { wasteNumbers: false } }, 'waste');
    const { stocks } = await planJob(job);
    const { layout, pieces } = stocks![0]!;
    const numbered = pieces.filter((piece) => piece.marks.some(({ kind }) => kind === 'number')).map(({ id }) => id);
    const paths = cutFiles(layout, pieces, job, 'waste').flatMap(({ drawing }) => drawing.paths);
    const placed = new Set(
      paths.filter(({ role }) => role === 'number').map(({ pieceId }) => pieceId.replace(/#\d+$/, '')),
    );
    expect([...placed].sort()).toEqual([...numbered].sort());
  });
});
