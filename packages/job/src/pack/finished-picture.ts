import { shapeToPathData } from '@underlap/geometry/path-data';
import type { Sign } from '@underlap/stack/sign';
import { boundsOf } from '../report-html/frame.ts';
import type { PathPicture, PicturePath } from './path-picture.ts';

/** Fill of a part without a paint colour. */
const BARE = '#e8d9bd';

/** Where a picture lies and how large it may be, pixels. */
export interface PictureFrame {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The map from the sign's millimetres into a frame, centred. */
export interface SignPlace {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
}

/** Parts as they hang on the wall; all of them only where no place is known. */
function shownParts(sign: Sign): Sign['parts'] {
  const placed = sign.parts.filter((part) => part.place === 'assembled');
  return placed.length > 0 ? placed : sign.parts;
}

/** The sign in a frame, as large as it goes in. */
export function placeOfSign(sign: Sign, frame: PictureFrame): SignPlace {
  const { minX, minY, maxX, maxY } = boundsOf(shownParts(sign).map((part) => part.shape));
  const scale = Math.min(frame.width / (maxX - minX), frame.height / (maxY - minY));
  return {
    scale,
    x: frame.x + (frame.width - scale * (maxX - minX)) / 2 - scale * minX,
    y: frame.y + (frame.height - scale * (maxY - minY)) / 2 - scale * minY,
  };
}

/** Parts bottom first in their paint. @param line - width of their edges, pixels. */
export function signPaths(sign: Sign, place: SignPlace, line: number): PicturePath[] {
  return shownParts(sign).map((part) => ({
    d: shapeToPathData(part.shape, 3),
    fill: part.paint ?? BARE,
    stroke: '#22252a',
    width: line / place.scale,
    dash: [],
    ...place,
  }));
}

/** The finished sign on white. @param longest - pixels along the longer side. */
export function finishedPicture(sign: Sign, longest: number): PathPicture {
  const { minX, minY, maxX, maxY } = boundsOf(shownParts(sign).map((part) => part.shape));
  const edge = Math.round(longest / 40);
  const scale = (longest - 2 * edge) / Math.max(maxX - minX, maxY - minY);
  const width = Math.round(scale * (maxX - minX)) + 2 * edge;
  const height = Math.round(scale * (maxY - minY)) + 2 * edge;
  const place = placeOfSign(sign, { x: edge, y: edge, width: width - 2 * edge, height: height - 2 * edge });
  return {
    title: `${sign.name}, finished`,
    width,
    height,
    paper: '#ffffff',
    paths: signPaths(sign, place, longest / 1000),
  };
}
