import type { CuttingGroup } from '@underlap/artwork/cutting-groups';
import type { SheetPath, SheetProcess } from '@underlap/artwork/sheet-drawing';
import { contourBounds, contourEnd, contourLength } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { contourSeconds, moveSeconds } from './path-time.ts';

/** What the beam does, cuts of holes and outlines taken together. */
export const TIMED_PROCESSES = ['engrave', 'score', 'deep-score', 'cut'] as const;
export type TimedProcess = (typeof TIMED_PROCESSES)[number];

/** The shop's own figures for its machine. */
export interface MachineSpeeds extends Readonly<Record<TimedProcess, number>> {
  /** Moves with the beam off, mm/s. */
  readonly travel: number;
  /** mm/s2. */
  readonly acceleration: number;
  /** How far the head may cut a corner, mm. */
  readonly cornerTolerance: number;
  /** Beam on and standing before it moves, seconds for every run; 0 for most machines. */
  readonly pierceSeconds: number;
  /** Distance of the lines that an area is engraved with, mm. */
  readonly engraveStep: number;
}

/** What the machine does on one sheet. */
export interface SheetTime {
  readonly cutLengthMm: number;
  /** Scored and engraved lines, mm. */
  readonly markLengthMm: number;
  /** With the beam off, mm. */
  readonly travelLengthMm: number;
  /** The whole, seconds. */
  readonly seconds: number;
  /** By process, seconds; these and `travelSeconds` add up to the whole. */
  readonly byProcess: Readonly<Record<TimedProcess, number>>;
  readonly travelSeconds: number;
}

/** A sheet without anything on it. */
export const NO_TIME: SheetTime = {
  cutLengthMm: 0,
  markLengthMm: 0,
  travelLengthMm: 0,
  seconds: 0,
  byProcess: { engrave: 0, score: 0, 'deep-score': 0, cut: 0 },
  travelSeconds: 0,
};

/**
 * Machine time of one sheet in the very order its file is written; the head starts at the sheet's upper left corner.
 * Areas are engraved line by line: every line as long as the area is wide, from rest to rest.
 * @remarks An estimate from the shop's own speeds: what a machine does besides (homing, focusing, air) is not known here.
 */
export function sheetTime(groups: readonly CuttingGroup[], speeds: MachineSpeeds): SheetTime {
  const byProcess = { engrave: 0, score: 0, 'deep-score': 0, cut: 0 };
  let cutLengthMm = 0;
  let markLengthMm = 0;
  let travelLengthMm = 0;
  let travelSeconds = 0;
  let at: Point = { x: 0, y: 0 };
  const travelTo = (to: Point) => {
    const distance = Math.hypot(to.x - at.x, to.y - at.y);
    travelLengthMm += distance;
    travelSeconds += moveSeconds(distance, speeds.travel, speeds.acceleration);
  };
  for (const group of groups) {
    const process = timedProcess(group.process);
    for (const path of group.paths) {
      if (isEngravedArea(path, group)) {
        travelTo(path.contour.start);
        byProcess.engrave += areaSeconds(path.contour, speeds);
        for (const contour of [path.contour, ...(path.holes ?? [])]) markLengthMm += contourLength(contour);
        at = path.contour.start;
        continue;
      }
      for (const contour of [path.contour, ...(path.holes ?? [])]) {
        const lengthMm = contourLength(contour);
        if (process === 'cut') cutLengthMm += lengthMm;
        else markLengthMm += lengthMm;
        travelTo(contour.start);
        byProcess[process] += speeds.pierceSeconds + contourSeconds(contour, { ...speeds, speed: speeds[process] });
        at = contour.closed ? contour.start : contourEnd(contour);
      }
    }
  }
  const seconds = travelSeconds + TIMED_PROCESSES.reduce((sum, process) => sum + byProcess[process], 0);
  return { cutLengthMm, markLengthMm, travelLengthMm, seconds, byProcess, travelSeconds };
}

/** Several sheets together. */
export function totalTime(times: readonly SheetTime[]): SheetTime {
  return times.reduce((sum, time) => {
    const byProcess = { ...sum.byProcess };
    for (const process of TIMED_PROCESSES) byProcess[process] += time.byProcess[process];
    return {
      cutLengthMm: sum.cutLengthMm + time.cutLengthMm,
      markLengthMm: sum.markLengthMm + time.markLengthMm,
      travelLengthMm: sum.travelLengthMm + time.travelLengthMm,
      seconds: sum.seconds + time.seconds,
      byProcess,
      travelSeconds: sum.travelSeconds + time.travelSeconds,
    };
  }, NO_TIME);
}

function timedProcess(process: SheetProcess): TimedProcess {
  return process === 'cut-inner' || process === 'cut-outer' ? 'cut' : process;
}

function isEngravedArea(path: SheetPath, group: CuttingGroup): boolean {
  return group.process === 'engrave' && path.contour.closed && !group.isNumbers;
}

function areaSeconds(contour: Contour, speeds: MachineSpeeds): number {
  const { minX, minY, maxX, maxY } = contourBounds(contour);
  const rows = Math.max(1, Math.ceil((maxY - minY) / speeds.engraveStep));
  return rows * moveSeconds(maxX - minX, speeds.engrave, speeds.acceleration);
}
