import { contourArea, contourLength } from '@underlap/geometry/contour';
import type { Segment, Shape } from '@underlap/geometry/curve';
import { FLATTEN_TOLERANCE_MM, shapeToRegion } from '@underlap/geometry/flatten';
import { convexHull } from '@underlap/geometry/hull';
import type { Point } from '@underlap/geometry/point';
import { type ArrangedEdge, arrange, type Face, faceShape } from './arrangement.ts';
import { exactTurns } from './goes-in.ts';
import type { HeldMeasure } from './held.ts';
import type { KnobProfile } from './knob-profile.ts';
import type { KnobsByCut } from './place-knobs.ts';
import type { PlannedCut } from './search-ground.ts';
import { type Spine, spineStretch } from './spine.ts';
import type { EdgeOrigin, Knob, Seam, SeamTask, SplitPiece } from './task.ts';
import { type CoverMeasure, sharedLength, stretchesLength } from './visible.ts';

/** What seams are measured by; built once per task. */
export interface SeamMeasures {
  readonly cover: CoverMeasure;
  readonly glue: HeldMeasure;
  /** Where a seam runs along a drawn line; null where none leads. */
  readonly lines: CoverMeasure | null;
}

/** Pieces and seams of a finished tree of cuts. */
export interface Assembly {
  readonly pieces: readonly SplitPiece[];
  readonly seams: readonly Seam[];
  /** Ids of pieces that do not fit a limit with their knobs. */
  readonly tooLarge: readonly string[];
}

/**
 * Walk the part's exact contours and the knobbed seams into pieces.
 * @remarks O(segments). Both sides of a seam hold the same lines and arcs, one reversed.
 */
export function assemble(
  task: SeamTask,
  shape: Shape,
  cuts: readonly PlannedCut[],
  knobs: KnobsByCut,
  measures: SeamMeasures,
): Assembly {
  const faces = arrange(
    shape,
    cuts.map((cut, index) => ({
      from: cut.from,
      to: cut.to,
      length: cut.spine.length,
      stretch: (s0: number, s1: number) => knobbedStretch(cut.spine, knobs[index]!, s0, s1),
    })),
  );
  const ordered = inReadingOrder(faces);
  const edgeSeam = new Map<number, { edge: ArrangedEdge; left: string; right: string }>();
  const ids = ordered.map((_, index) => `${task.id}-${index + 1}`);
  ordered.forEach((face, index) => {
    for (const { edge, forward } of face.loop) {
      if (edge.cut < 0) continue;
      const entry = edgeSeam.get(edge.id) ?? { edge, left: '', right: '' };
      edgeSeam.set(edge.id, forward ? { ...entry, left: ids[index]! } : { ...entry, right: ids[index]! });
    }
  });
  const seamIds = new Map<number, string>();
  const seams: Seam[] = [];
  for (const { edge, left, right } of [...edgeSeam.values()].sort(
    (a, b) => a.edge.cut - b.edge.cut || a.edge.s0 - b.edge.s0,
  )) {
    const id = `${task.id}-seam-${seams.length + 1}`;
    seamIds.set(edge.id, id);
    const own = knobs[edge.cut]!.filter((knob) => knob.at > edge.s0 && knob.at < edge.s1);
    seams.push(seamOf(id, [left, right], edge, cuts[edge.cut]!.spine, own, measures));
  }
  const tooLarge: string[] = [];
  const pieces = ordered.map((face, index): SplitPiece => {
    const piece = faceShape(face, shape);
    const region = shapeToRegion(piece, FLATTEN_TOLERANCE_MM);
    const turns = exactTurns(piece, convexHull(region.outer), task.limits, task.kerf);
    if (turns === null) tooLarge.push(ids[index]!);
    return {
      id: ids[index]!,
      shape: piece,
      region,
      limitTurnDeg: turns ?? { bed: 0, board: 0 },
      edges: edgeOrigins(face, seamIds, piece),
    };
  });
  return { pieces, seams, tooLarge };
}

/** A stretch of spine with its knobs in place. */
export function knobbedStretch(
  spine: Spine,
  knobs: readonly KnobProfile[],
  s0: number,
  s1: number,
): { start: Point; segments: Segment[] } {
  const segments: Segment[] = [];
  let start: Point | null = null;
  let at = s0;
  for (const knob of knobs) {
    if (knob.from < s0 || knob.to > s1) continue;
    const plain = spineStretch(spine, at, knob.from);
    start ??= plain.start;
    segments.push(...withEnd(plain.segments, knob.start), ...knob.segments);
    at = knob.to;
  }
  const rest = spineStretch(spine, at, s1);
  start ??= rest.start;
  segments.push(...rest.segments);
  return { start, segments };
}

/** The last segment moved onto the very point where the next one starts: the two differ by rounding only. */
function withEnd(segments: readonly Segment[], end: Point): Segment[] {
  const last = segments[segments.length - 1];
  return last === undefined ? [] : [...segments.slice(0, -1), { ...last, to: end }];
}

function seamOf(
  id: string,
  between: readonly [string, string],
  edge: ArrangedEdge,
  spine: Spine,
  knobs: readonly KnobProfile[],
  { cover, glue, lines }: SeamMeasures,
): Seam {
  const { stretches } = cover.visible(edge.curve);
  const held = glue.stretches(edge.curve);
  const lengthMm = contourLength(edge.curve);
  const plain = spineStretch(spine, edge.s0, edge.s1);
  return {
    id,
    between,
    path: edge.curve,
    spine: { start: plain.start, segments: plain.segments, closed: false },
    lengthMm,
    hiddenLengthMm: Math.max(0, lengthMm - stretchesLength(stretches)),
    visible: stretches,
    ledLengthMm: lines === null ? 0 : sharedLength(stretches, lines.hidden(edge.curve)),
    heldLengthMm: Math.min(lengthMm, stretchesLength(held)),
    held,
    knobs: knobs.map(
      (knob): Knob => ({
        at: knob.at - edge.s0,
        side: knob.side,
        kind: knob.kind,
        neck: knob.neck,
        head: knob.head,
        centre: knob.centre,
      }),
    ),
    neckMm: knobs.length > 0 ? Math.min(...knobs.map((knob) => knob.neck)) : 0,
  };
}

/** For every segment of a piece's outer contour and holes: the seam it belongs to, or null on the part's own outline. */
function edgeOrigins(face: Face, seamIds: Map<number, string>, piece: Shape): EdgeOrigin[][] {
  const outer: EdgeOrigin[] = [];
  for (const { edge } of face.loop) {
    const seam = edge.cut >= 0 ? seamIds.get(edge.id)! : null;
    for (let k = 0; k < edge.curve.segments.length; k++) outer.push(seam);
  }
  return [outer, ...piece.holes.map((hole) => hole.segments.map(() => null))];
}

/** Top to bottom, then left to right, by centre of the bounding box; rows are taken coarsely. */
function inReadingOrder(faces: readonly Face[]): Face[] {
  const centres = faces.map((face) => {
    let x = 0;
    let y = 0;
    const n = face.outer.length / 2;
    for (let i = 0; i < face.outer.length; i += 2) {
      x += face.outer[i]! / n;
      y += face.outer[i + 1]! / n;
    }
    return { face, x, y, size: Math.sqrt(Math.abs(contourArea(outlineOf(face)))) };
  });
  const row = 0.5 * Math.min(...centres.map((entry) => entry.size));
  const top = Math.min(...centres.map((entry) => entry.y));
  return centres
    .sort((a, b) => Math.round((a.y - top) / row) - Math.round((b.y - top) / row) || a.x - b.x)
    .map((entry) => entry.face);
}

function outlineOf(face: Face) {
  const segments = [];
  for (let i = 2; i < face.outer.length; i += 2) {
    segments.push({ kind: 'line' as const, to: { x: face.outer[i]!, y: face.outer[i + 1]! } });
  }
  return { start: { x: face.outer[0]!, y: face.outer[1]! }, segments, closed: true };
}
