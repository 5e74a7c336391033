import type { Costs } from './document.ts';

/** One run of the beam: how long it is and where it begins and ends, sheet frame, mm. */
export interface BeamRun {
  readonly process: 'engrave' | 'score' | 'deep-score' | 'cut';
  readonly lengthMm: number;
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
}

/**
 * Time of one straight move that starts and ends at rest, with limited speed and acceleration (trapezoidal profile).
 * Source: textbook kinematics. Long moves: d / v + v / a. Short ones never reach v: 2 sqrt(d / a).
 * @param distance - mm, >= 0. @param speed - mm/s, > 0. @param acceleration - mm/s2, > 0.
 * @returns seconds.
 */
export function moveSeconds(distance: number, speed: number, acceleration: number): number {
  const ramps = (speed * speed) / acceleration;
  return distance >= ramps ? distance / speed + speed / acceleration : 2 * Math.sqrt(distance / acceleration);
}

/**
 * Machine time of one sheet: every run at its process's speed, from rest to rest, and the moves between them with the beam off.
 * @param runs - in the order of cutting; the head starts at 0, 0.
 * @remarks An estimate: corners inside a run are taken at full speed, and the machine's own overheads are not known.
 */
export function sheetSeconds(runs: readonly BeamRun[], speeds: Costs['speeds']): number {
  let at = { x: 0, y: 0 };
  let seconds = 0;
  for (const run of runs) {
    seconds += moveSeconds(Math.hypot(run.from.x - at.x, run.from.y - at.y), speeds.travel, speeds.acceleration);
    seconds += moveSeconds(run.lengthMm, speeds[run.process], speeds.acceleration);
    at = run.to;
  }
  return seconds;
}
