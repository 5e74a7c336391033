import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Region } from '@underlap/geometry/region';
import { checkLayout } from '@underlap/nest/check/check-layout';
import type { Layout, NestProblem, Verdict } from '@underlap/nest/problem';
import type { SearchItem, Spot } from '@underlap/nest/search/task';

/** A part of an open instance: unitless, as the folder's README describes. */
export interface InstancePart {
  readonly id: string;
  readonly quantity: number;
  readonly rotations: readonly number[] | 'free';
  readonly outline: readonly (readonly [number, number])[];
  readonly holes: readonly (readonly (readonly [number, number])[])[];
}

export interface StripInstance {
  readonly name: string;
  readonly stripHeight: number;
  readonly parts: readonly InstancePart[];
  readonly totalPartArea: number;
  readonly bestPublishedDensity: number | null;
}

export interface BoardInstance {
  readonly name: string;
  readonly boardWidth: number;
  readonly boardHeight: number;
  readonly parts: readonly InstancePart[];
  readonly optimalBoards: number | null;
  readonly totalPartArea: number;
  readonly areaLowerBound: number;
}

/** Penetration that counts as touching in these sets without a unit, as a share of the board's (or strip's) side. */
export const TOUCHING = 1e-5;

/** The search's own tolerance: half of what the check allows, so that its rounding never decides. */
export const SEARCH_TOUCHING = 0.5 * TOUCHING;

/** The side that instances are scaled to for the check, whose tolerance is 0.001: then 1e-5 of the side. */
const CHECKED_SIDE = 100;

/** JSON files of a folder by name, or null when it is absent. */
export function readFolder(folder: string | undefined): { name: string; text: string }[] | null {
  if (folder === undefined || !existsSync(folder)) return null;
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .sort()
    .map((name) => ({ name: name.slice(0, -5), text: readFileSync(join(folder, name), 'utf8') }));
}

/** Forms and items of an instance; 'free' rotation is read as quarter turns. */
export function searchItems(
  parts: readonly InstancePart[],
  isFreeToTurn = false,
): {
  forms: Region[];
  items: SearchItem[];
  partOf: number[];
} {
  const forms: Region[] = [];
  const items: SearchItem[] = [];
  const partOf: number[] = [];
  parts.forEach((part, form) => {
    const ring = (points: InstancePart['outline']) => Float64Array.from(points.flat());
    forms.push({ outer: ring(part.outline), holes: part.holes.map((hole) => ring(hole)) });
    const turns = part.rotations === 'free' ? [0, 90, 180, 270] : part.rotations;
    const poses = turns.map((turnDeg) => ({ form, turnDeg }));
    for (let copy = 0; copy < part.quantity; copy++) {
      items.push({ poses, isFreeToTurn });
      partOf.push(form);
    }
  });
  return { forms, items, partOf };
}

/** The independent check's verdict on spots, on boards of one size. */
export function verdictOn(
  parts: readonly InstancePart[],
  spots: readonly Spot[],
  width: number,
  height: number,
  isFreeToTurn = false,
): { verdict: Verdict; problem: NestProblem } {
  const { partOf } = searchItems(parts);
  const scale = CHECKED_SIDE / Math.max(height, Math.min(width, height));
  const ring = (points: InstancePart['outline']) => Float64Array.from(points.flat().map((value) => value * scale));
  const rectangle = Float64Array.of(0, 0, width * scale, 0, width * scale, height * scale, 0, height * scale);
  const problem: NestProblem = {
    pieces: parts.map((part) => ({
      id: part.id,
      region: { outer: ring(part.outline), holes: part.holes.map((hole) => ring(hole)) },
      outline: null,
      quantity: part.quantity,
      turns: isFreeToTurn ? 'any' : turnRule(part.rotations),
      baseTurnDeg: 0,
      mayMirror: false,
      keepsGrain: false,
      groups: [],
    })),
    stock: [
      { id: 'board', outline: { outer: rectangle, holes: [] }, count: null, price: 1, forbidden: [], hasGrain: false },
    ],
    // biome-ignore lint/suspicious/noThenProperty: the contract's name for the second aim; nothing awaits it
    rules: { spacing: 0, margin: 0, aim: 'fewest-boards', then: 'largest-offcut' },
    pinned: [],
  };
  const copies = new Int32Array(parts.length);
  const sheets = new Map<number, Layout['sheets'][number]['placements'][number][]>();
  for (const spot of [...spots].sort((a, b) => a.item - b.item)) {
    const part = partOf[spot.item]!;
    const copy = ++copies[part]!;
    const list = sheets.get(spot.board) ?? [];
    sheets.set(spot.board, list);
    list.push({
      pieceId: parts[part]!.id,
      copy,
      x: spot.x * scale,
      y: spot.y * scale,
      turnDeg: spot.turnDeg,
      mirrored: false,
    });
  }
  const layout: Layout = {
    sheets: [...sheets.values()].map((placements) => ({
      stockId: 'board',
      width: width * scale,
      height: height * scale,
      placements,
      windows: [],
      yield: 0,
      offcut: null,
    })),
    unplaced: [],
    yield: 0,
  };
  return { verdict: checkLayout(problem, layout), problem };
}

function turnRule(rotations: InstancePart['rotations']): NestProblem['pieces'][number]['turns'] {
  if (rotations === 'free') return 'any';
  if (rotations.length === 1) return 'fixed';
  return rotations.length === 2 ? 'half' : 'quarter';
}

/** A short checksum of a layout, so that 'faster because different' shows. FNV-1a over rounded numbers. */
export function checksum(spots: readonly Spot[], unit: number): string {
  let hash = 0x811c9dc5;
  for (const spot of spots) {
    for (const value of [spot.item, spot.board, spot.turnDeg, spot.x / unit, spot.y / unit]) {
      hash = Math.imul(hash ^ Math.round(value), 0x01000193);
    }
  }
  return (hash >>> 0).toString(16).padStart(8, '0');
}

/** Seconds counter: by the wall, or by processor time of this process (all its threads). */
export function stopwatch(clock: 'wall' | 'cpu'): () => number {
  if (clock === 'wall') {
    const start = performance.now();
    return () => (performance.now() - start) / 1000;
  }
  const start = process.cpuUsage();
  return () => {
    const spent = process.cpuUsage(start);
    return (spent.user + spent.system) / 1e6;
  };
}
