import type { Ring } from '@underlap/geometry/ring';

/**
 * The full convolution of two closed chains a and b: for each vertex of one, the edges of the other whose direction lies in
 * the turn made at that vertex, moved to it (backwards where the turn is to the right). For weakly simple counter-clockwise
 * chains its winding number is positive exactly inside the Minkowski sum of a and b, zero outside.
 * @returns closed cycles, each as x0, y0, x1, y1, ... without a repeated last point.
 * @throws Error `unbalanced` if the edges do not close into cycles (cannot happen with one total order of directions).
 * @remarks Output and time O(n m) at worst, O(n + m) for convex chains. Source: Guibas, Ramshaw and Stolfi, A kinetic framework
 * for computational geometry, FOCS 1983; Wein, Exact and efficient construction of planar Minkowski sums using the
 * convolution method, ESA 2006. Edges of equal direction are ordered a before b everywhere; that one total order is what
 * keeps every vertex pair balanced, so that cycles always close.
 */
export function convolutionCycles(a: Ring, b: Ring): Ring[] {
  const n = a.length / 2;
  const m = b.length / 2;
  const turnsA = edgeAngles(a);
  const turnsB = edgeAngles(b);
  const order = directionOrder(turnsA, turnsB);

  // A state is a vertex pair (i, j); an edge leads from one state to another, and every state is left as often as entered.
  const starts: number[] = [];
  const ends: number[] = [];
  for (let i = 0; i < n; i++) {
    const into = (i + n - 1) % n;
    order.sweep(into, i, false, (edge, isLeft) => {
      const from = i * m + edge;
      const to = i * m + ((edge + 1) % m);
      starts.push(isLeft ? from : to);
      ends.push(isLeft ? to : from);
    });
  }
  for (let j = 0; j < m; j++) {
    const into = (j + m - 1) % m;
    order.sweep(into, j, true, (edge, isLeft) => {
      const from = edge * m + j;
      const to = ((edge + 1) % n) * m + j;
      starts.push(isLeft ? from : to);
      ends.push(isLeft ? to : from);
    });
  }
  return chainCycles(starts, ends, (state) => {
    const i = Math.floor(state / m);
    const j = state - i * m;
    return [a[2 * i]! + b[2 * j]!, a[2 * i + 1]! + b[2 * j + 1]!];
  });
}

/** Direction of each edge v -> v + 1, radians in (-pi, pi]. */
function edgeAngles(ring: Ring): Float64Array {
  const n = ring.length / 2;
  const angles = new Float64Array(n);
  for (let v = 0; v < n; v++) {
    const w = (v + 1) % n;
    const angle = Math.atan2(ring[2 * w + 1]! - ring[2 * v + 1]!, ring[2 * w]! - ring[2 * v]!);
    angles[v] = angle === -Math.PI ? Math.PI : angle;
  }
  return angles;
}

interface DirectionOrder {
  /** Calls `visit` for each edge of the other chain whose direction lies in the turn from edge `into` to edge `out`. */
  sweep(into: number, out: number, ownIsB: boolean, visit: (edge: number, isLeft: boolean) => void): void;
}

/** Angles closer than this count as parallel, radians: the noise of atan2 and of turned coordinates. */
const PARALLEL = 1e-11;

/** All edges of both chains around the circle of directions: by angle, at equal angles those of a before those of b. */
function directionOrder(turnsA: Float64Array, turnsB: Float64Array): DirectionOrder {
  const n = turnsA.length;
  const total = n + turnsB.length;
  const angleOf = (e: number) => (e < n ? turnsA[e]! : turnsB[e - n]!);
  const byAngle = Array.from({ length: total }, (_, e) => e).sort((p, q) => angleOf(p) - angleOf(q) || p - q);
  // Snap near-equal angles to the first of their run before families are compared.
  const snapped = new Float64Array(total);
  let anchor = Number.NEGATIVE_INFINITY;
  for (const e of byAngle) {
    if (angleOf(e) - anchor > PARALLEL) anchor = angleOf(e);
    snapped[e] = anchor;
  }
  // pi and -pi are one direction.
  const top = snapped[byAngle[total - 1]!]!;
  const bottom = snapped[byAngle[0]!]!;
  if (top - bottom > 2 * Math.PI - PARALLEL)
    for (let e = 0; e < total; e++) if (snapped[e] === bottom) snapped[e] = top;
  const sorted = byAngle.sort((p, q) => snapped[p]! - snapped[q]! || Number(p >= n) - Number(q >= n) || p - q);
  const rank = new Int32Array(total);
  const place = new Int32Array(total);
  let current = -1;
  sorted.forEach((e, at) => {
    const before = sorted[at - 1];
    if (before === undefined || snapped[before] !== snapped[e] || before < n !== e < n) current++;
    rank[e] = current;
    place[e] = at;
  });
  return {
    sweep(into, out, ownIsB, visit) {
      const offset = ownIsB ? n : 0;
      const first = into + offset;
      const last = out + offset;
      if (rank[first] === rank[last]) return;
      let turn = snapped[last]! - snapped[first]!;
      if (turn > Math.PI) turn -= 2 * Math.PI;
      else if (turn <= -Math.PI) turn += 2 * Math.PI;
      const isLeft = turn > 0;
      const stop = rank[isLeft ? last : first]!;
      let at = place[isLeft ? first : last]!;
      const startRank = rank[isLeft ? first : last]!;
      for (let guard = 0; guard < total; guard++) {
        at = at + 1 === total ? 0 : at + 1;
        const e = sorted[at]!;
        if (rank[e] === stop) break;
        if (rank[e] === startRank) continue;
        if (e >= n === ownIsB) continue;
        visit(ownIsB ? e : e - n, isLeft);
      }
    },
  };
}

/** Tie directed edges head to tail into cycles; each start is used once. */
function chainCycles(
  starts: readonly number[],
  ends: readonly number[],
  position: (state: number) => [number, number],
): Ring[] {
  const leaving = new Map<number, number[]>();
  starts.forEach((state, edge) => {
    const list = leaving.get(state);
    if (list) list.push(edge);
    else leaving.set(state, [edge]);
  });
  const used = new Uint8Array(starts.length);
  const cycles: Ring[] = [];
  for (let first = 0; first < starts.length; first++) {
    if (used[first]) continue;
    const home = starts[first]!;
    const points: number[] = [];
    let edge = first;
    for (;;) {
      used[edge] = 1;
      points.push(...position(starts[edge]!));
      const state = ends[edge]!;
      if (state === home) break;
      const next = leaving.get(state)?.find((candidate) => used[candidate] === 0);
      if (next === undefined) throw new Error('unbalanced convolution: the chain does not close');
      edge = next;
    }
    cycles.push(Float64Array.from(points));
  }
  return cycles;
}
