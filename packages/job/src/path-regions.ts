import { readPath } from '@underlap/artwork/path-grammar';
import { regionsFromRings } from '@underlap/geometry/boolean';
import { FLATTEN_TOLERANCE_MM, flattenContour } from '@underlap/geometry/flatten';
import type { Region } from '@underlap/geometry/region';
import { ringArea } from '@underlap/geometry/ring';
import { JobError } from './error.ts';

/** Less is a line or a stray point, mm2. */
const SMALLEST_AREA_MM2 = 0.01;

/** Most segments that an outline in a job file may have. */
const MOST_SEGMENTS = 20_000;

/**
 * Areas from SVG path data in mm; subpaths within others are holes (even-odd). Every subpath is closed.
 * @throws JobError `job-invalid` naming the place in the text.
 */
export function parseRegions(data: string, field = 'an outline'): Region[] {
  const read = readPath(data, MOST_SEGMENTS);
  if (read.fault !== null) {
    throw new JobError(
      'job-invalid',
      `${field} is no SVG path data: ${read.fault.message} (at character ${read.fault.at + 1}).`,
      { field },
    );
  }
  const rings = read.contours
    .map((contour) => flattenContour({ ...contour, closed: true }, FLATTEN_TOLERANCE_MM))
    .filter((ring) => Math.abs(ringArea(ring)) >= SMALLEST_AREA_MM2);
  const regions = rings.length === 0 ? [] : regionsFromRings(rings, 'evenodd');
  if (regions.length === 0) throw new JobError('job-invalid', `${field} encloses no area.`, { field });
  return regions;
}
