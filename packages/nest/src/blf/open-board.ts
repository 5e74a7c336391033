import type { Bounds } from '@underlap/geometry/ring';
import type { PreparedStock } from '../shape/prepare.ts';
import { buildProfile } from '../shape/profile.ts';
import type { TurnedForm } from '../shape/turned-form.ts';
import { climb, type Standing, TOUCH_MM } from './climb.ts';
import { GapLines, type Probes, probesOf } from './gap-lines.ts';
import { slideLength } from './slide.ts';

/** Step of the scan along the board as a share of the piece's width; exact contact with the left neighbour is tried as well. */
const STEP_SHARE = 0.02;
/** Bounds of that step, mm. */
const SMALLEST_STEP_MM = 0.5;
const LARGEST_STEP_MM = 2;
/** Slides in turn to the left and down before a piece is left where it is. */
const MOST_SLIDES = 6;

export interface FreePlace {
  readonly turned: TurnedForm;
  readonly x: number;
  readonly y: number;
}

export interface LaidCopy extends FreePlace {
  readonly copy: number;
}

/** One board being filled from the left and from below. Pieces are only added, except for `truncate`. */
export class OpenBoard {
  readonly placed: LaidCopy[] = [];
  usedArea = 0;
  /** Least area that failed here lately: what is hardly smaller need not be tried. */
  failedArea = Number.POSITIVE_INFINITY;
  /** Sorted by their lowest point, so that a climb meets them in order. */
  private standing: Standing[] = [];
  private gaps: GapLines;
  private readonly probes = new Map<number, Probes>();
  private readonly blocked: { readonly standing: Standing; readonly gap: number }[] = [];
  /** Where the scan for an attitude may begin: free places only vanish while pieces are added. */
  private starts = new Map<number, number>();

  constructor(
    readonly stock: PreparedStock,
    private readonly spacing: number,
    private readonly margin: number,
  ) {
    this.gaps = this.freshGaps();
    for (const obstacle of stock.obstacles) {
      const profile = buildProfile(obstacle.rings, obstacle.gap, {
        from: Math.max(0, obstacle.bounds.minX - obstacle.gap),
        to: Math.min(stock.width, obstacle.bounds.maxX + obstacle.gap),
      });
      this.blocked.push({ standing: { profile, x: 0, y: 0 }, gap: obstacle.gap });
    }
  }

  add(spot: FreePlace, copy: number, area: number): void {
    this.placed.push({ ...spot, copy: copy });
    this.usedArea += area;
    this.stand(spot);
  }

  /** Forget the pieces from `count` on, and what was learned since then. */
  truncate(count: number, usedArea: number): void {
    this.placed.length = count;
    this.usedArea = usedArea;
    this.failedArea = Number.POSITIVE_INFINITY;
    this.starts = new Map();
    this.standing = [];
    this.gaps = this.freshGaps();
    for (const spot of this.placed) this.stand(spot);
  }

  private freshGaps(): GapLines {
    const beyond = this.spacing / 2 - this.margin;
    return new GapLines(this.stock.width, -beyond, this.stock.height + beyond);
  }

  private stand(spot: FreePlace): void {
    const standing = { profile: spot.turned.profile(this.spacing / 2), x: spot.x, y: spot.y };
    const bottom = standing.y + standing.profile.minY;
    let at = this.standing.length;
    while (at > 0 && this.standing[at - 1]!.y + this.standing[at - 1]!.profile.minY > bottom) at--;
    this.standing.splice(at, 0, standing);
    this.gaps.refresh(standing, this.standing);
  }

  /** Leftmost, then lowest free place of an attitude, in contact with what stops it; null when there is none. */
  findSpot(turned: TurnedForm, farthestX: number): FreePlace | null {
    let best: FreePlace | null = null;
    this.stock.windows.forEach((window, index) => {
      const range = this.reach(turned, window);
      if (range === null) return;
      const limit = Math.min(range.maxX, best === null ? farthestX : best.x - TOUCH_MM);
      const found = this.scan(turned, range, limit, index);
      if (found !== null) best = { turned, x: found.x, y: found.y };
    });
    return best;
  }

  /** Push a found place to the left and down until it touches, within its window. */
  settle(spot: FreePlace): FreePlace {
    const window = this.stock.windows.find((w) => {
      const range = this.reach(spot.turned, w);
      return (
        range !== null &&
        spot.x >= range.minX - TOUCH_MM &&
        spot.x <= range.maxX + TOUCH_MM &&
        spot.y >= range.minY - TOUCH_MM &&
        spot.y <= range.maxY + TOUCH_MM
      );
    });
    if (window === undefined) return spot;
    const range = this.reach(spot.turned, window)!;
    let { x, y } = spot;
    for (let k = 0; k < MOST_SLIDES; k++) {
      const axis = (k & 1) as 0 | 1;
      const length = this.slide(spot.turned, x, y, axis, axis === 0 ? x - range.minX : y - range.minY);
      if (axis === 0) x -= length;
      else y -= length;
      if (length < 1e-4 && k > 0) break;
    }
    return { turned: spot.turned, x, y };
  }

  /** Places of the attitude's origin that keep margin and window; null when the window is too small for it. */
  private reach(turned: TurnedForm, window: Bounds): Bounds | null {
    const { bounds } = turned;
    const { width, height } = this.stock;
    const range = {
      minX: Math.max(window.minX, this.margin) - bounds.minX,
      minY: Math.max(window.minY, this.margin) - bounds.minY,
      maxX: Math.min(window.maxX, width - this.margin) - bounds.maxX,
      maxY: Math.min(window.maxY, height - this.margin) - bounds.maxY,
    };
    if (range.maxX < range.minX - TOUCH_MM || range.maxY < range.minY - TOUCH_MM) return null;
    return { ...range, maxX: Math.max(range.minX, range.maxX), maxY: Math.max(range.minY, range.maxY) };
  }

  private scan(turned: TurnedForm, range: Bounds, limit: number, window: number): { x: number; y: number } | null {
    const key = turned.key * this.stock.windows.length + window;
    const start = Math.max(range.minX, this.starts.get(key) ?? range.minX);
    const profile = turned.profile(this.spacing / 2);
    let probes = this.probes.get(turned.key);
    if (probes === undefined) {
      probes = probesOf(profile);
      this.probes.set(turned.key, probes);
    }
    const contacts = this.contacts(profile.minX, start, limit);
    const step = Math.min(LARGEST_STEP_MM, Math.max(SMALLEST_STEP_MM, (profile.maxX - profile.minX) * STEP_SHARE));
    let next = 0;
    let x = start;
    while (x <= limit + TOUCH_MM) {
      const at = Math.min(x, range.maxX);
      const y = this.gaps.mayHold(probes, at) ? this.lowest(turned, at, range) : Number.NaN;
      if (!Number.isNaN(y)) {
        this.starts.set(key, x);
        return { x: at, y };
      }
      const stepped = x + step;
      while (next < contacts.length && contacts[next]! <= x + TOUCH_MM) next++;
      if (next < contacts.length && contacts[next]! < stepped) x = contacts[next]!;
      else if (x < limit && stepped > limit) x = limit;
      else x = stepped;
    }
    this.starts.set(key, Math.max(start, limit >= range.maxX ? Number.POSITIVE_INFINITY : limit));
    return null;
  }

  /** Places where the left side of a profile touches the right side of a standing piece, ascending. */
  private contacts(left: number, from: number, to: number): number[] {
    const list: number[] = [];
    for (const { profile, x } of this.standing) {
      const contact = profile.maxX + x - left;
      if (contact > from && contact <= to) list.push(contact);
    }
    return list.sort((a, b) => a - b);
  }

  private lowest(turned: TurnedForm, x: number, range: Bounds): number {
    const profile = turned.profile(this.spacing / 2);
    const near = this.standing.filter(
      (s) => s.x + s.profile.maxX > x + profile.minX + TOUCH_MM && s.x + s.profile.minX < x + profile.maxX - TOUCH_MM,
    );
    if (this.blocked.length === 0) return climb(profile, x, range.minY, range.maxY, near);
    const bare = turned.profile(0);
    let y = range.minY;
    for (;;) {
      const before = y;
      y = climb(profile, x, y, range.maxY, near);
      for (const { standing } of this.blocked) y = climb(bare, x, y, range.maxY, [standing]);
      if (Number.isNaN(y) || y === before) return y;
    }
  }

  private slide(turned: TurnedForm, x: number, y: number, axis: 0 | 1, limit: number): number {
    const moving = { rings: turned.rings, x, y };
    let length = Math.max(0, limit);
    for (const other of this.placed) {
      if (length <= 0) return 0;
      const swept = sweptBox(turned, x, y, axis, length);
      if (!mayMeet(swept, other, this.spacing)) continue;
      const standing = { rings: other.turned.rings, x: other.x, y: other.y };
      length = slideLength(moving, standing, axis, this.spacing, length);
    }
    for (const obstacle of this.stock.obstacles) {
      if (length <= 0) return 0;
      length = slideLength(moving, { rings: obstacle.rings, x: 0, y: 0 }, axis, obstacle.gap, length);
    }
    return length;
  }
}

/** The box that a form sweeps when it slides by `length` towards smaller x or y. */
function sweptBox({ bounds: b }: TurnedForm, x: number, y: number, axis: 0 | 1, length: number): Bounds {
  return {
    minX: b.minX + x - (axis === 0 ? length : 0),
    maxX: b.maxX + x,
    minY: b.minY + y - (axis === 1 ? length : 0),
    maxY: b.maxY + y,
  };
}

function mayMeet(swept: Bounds, { turned: { bounds }, x, y }: LaidCopy, gap: number): boolean {
  return (
    swept.minX - gap < bounds.maxX + x &&
    swept.maxX + gap > bounds.minX + x &&
    swept.minY - gap < bounds.maxY + y &&
    swept.maxY + gap > bounds.minY + y
  );
}
