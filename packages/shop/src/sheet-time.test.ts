import { cuttingGroups } from '@underlap/artwork/cutting-groups';
import { sheetStyle } from '@underlap/artwork/process-style';
import type { SheetDrawing, SheetPath } from '@underlap/artwork/sheet-drawing';
import type { Contour } from '@underlap/geometry/curve';
import { expect, it } from 'vitest';
import { moveSeconds } from './path-time.ts';
import { type MachineSpeeds, sheetTime, totalTime } from './sheet-time.ts';

const SPEEDS: MachineSpeeds = {
  cut: 10,
  score: 200,
  'deep-score': 40,
  engrave: 300,
  travel: 300,
  acceleration: 1000,
  cornerTolerance: 0,
  pierceSeconds: 0.25,
  engraveStep: 0.1,
};

function box(x: number, y: number, width: number, height: number): Contour {
  const corners = [
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
    [x, y],
  ] as const;
  return {
    start: { x, y },
    segments: corners.map(([cx, cy]) => ({ kind: 'line', to: { x: cx, y: cy } })),
    closed: true,
  };
}

function sheet(paths: readonly SheetPath[]): SheetDrawing {
  return {
    title: 'lighthouse',
    job: 'lighthouse',
    sheetNumber: 1,
    sheetCount: 1,
    widthMm: 300,
    heightMm: 200,
    seed: 1,
    kerfState: 'nominal',
    kerfMm: 0.2,
    toleranceMm: 0.01,
    paths,
  };
}

const timeOf = (paths: readonly SheetPath[]) => sheetTime(cuttingGroups(sheet(paths), sheetStyle()), SPEEDS);

it('adds the way there, the pierce and the four sides from rest to rest', () => {
  const time = timeOf([{ process: 'cut-outer', pieceId: 'a#1', contour: box(30, 40, 60, 20) }]);
  const sides = 2 * moveSeconds(60, 10, 1000) + 2 * moveSeconds(20, 10, 1000);
  expect(time.travelSeconds).toBeCloseTo(moveSeconds(50, 300, 1000), 12);
  expect(time.byProcess.cut).toBeCloseTo(sides + 0.25, 12);
  expect(time.seconds).toBeCloseTo(time.travelSeconds + sides + 0.25, 12);
  expect(time.cutLengthMm).toBeCloseTo(160, 12);
  expect(time.travelLengthMm).toBeCloseTo(50, 12);
});

it('engraves an area line by line', () => {
  const time = timeOf([{ process: 'engrave', pieceId: 'a#1', contour: box(0, 0, 50, 10) }]);
  expect(time.byProcess.engrave).toBeCloseTo(100 * moveSeconds(50, 300, 1000), 9);
});

it('adds sheets process by process', () => {
  const one = timeOf([{ process: 'score', pieceId: 'a#1', contour: box(0, 0, 50, 10) }]);
  const two = timeOf([{ process: 'cut-inner', pieceId: 'a#1', contour: box(5, 5, 50, 10) }]);
  const both = totalTime([one, two]);
  expect(both.seconds).toBeCloseTo(one.seconds + two.seconds, 12);
  expect(both.byProcess.score).toBe(one.byProcess.score);
  expect(both.byProcess.cut).toBe(two.byProcess.cut);
});
