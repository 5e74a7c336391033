import { UNITS_OF_EFFORT } from '@underlap/nest/nest';
import type { Effort } from '@underlap/nest/problem';

/** Layouts whose full effort all rows of a table have together; more rows share it. */
const FULL_LAYOUTS = 5;

/**
 * Effort for one layout of a table: a table answers which way is better, and its rows begin with one another's layouts, so that a
 * share of what a plan gets is enough.
 * @param rows - layouts of the table, 1 or more.
 * @returns 'quick' and numbers as they are; for 'normal' and 'thorough' work units, at most those of one plan.
 */
export function effortOfRow(effort: Effort, rows: number): Effort {
  if (effort === 'quick' || typeof effort === 'number') return effort;
  const units = UNITS_OF_EFFORT[effort];
  return Math.round(100 * Math.min(units, (FULL_LAYOUTS * units) / rows)) / 100;
}
