import type { Meetings } from './meetings.ts';
import type { Outline } from './outline.ts';
import { DEFAULT_MATCH_RULES, type MatchRules, matchRing } from './ring-match.ts';
import { ringMoments } from './ring-signature.ts';

/** Smaller outlines are alike within what a match allows, so that they say nothing, mm2. */
const LEAST_TWIN_MM2 = 60;

/** Comparisons after which a drawing of many like outlines is left unasked. */
const MOST_COMPARISONS = 4000;

/** Which outlines lie on others while an equal one lies alone elsewhere: in spread drawings these show where parts go. */
export class Twins {
  private readonly meetings: Meetings;
  private readonly known = new Map<string, boolean>();
  private readonly spread: readonly number[];
  private comparisons = 0;

  constructor(meetings: Meetings) {
    this.meetings = meetings;
    this.spread = meetings.outlines.map(({ ring }) => ringMoments(ring).spread);
  }

  /** Does the outline lie in, or cross, one of the chosen outlines? */
  lies(index: number, on: (other: Outline) => boolean): boolean {
    const { outlines, liesIn, crosses } = this.meetings;
    const isOn = (other: number): boolean => on(outlines[other]!);
    return liesIn[index]!.some(isOn) || crosses[index]!.some(isOn);
  }

  /**
   * An equal outline (a guide may be drawn a little inside its part) that is among the chosen, lies on none of them, and does
   * not meet this one.
   */
  twinOf(index: number, among: (other: Outline) => boolean): Outline | null {
    const { outlines } = this.meetings;
    const own = outlines[index]!;
    if (own.area < LEAST_TWIN_MM2) return null;
    for (const [other, outline] of outlines.entries()) {
      if (other === index || outline.shape === own.shape || !among(outline) || !this.isAlike(other, index)) continue;
      if (this.lies(other, among) || this.meets(index, other)) continue;
      if (this.isTwin(other, index)) return outline;
    }
    return null;
  }

  private meets(first: number, second: number): boolean {
    const { liesIn, crosses } = this.meetings;
    return liesIn[first]!.includes(second) || liesIn[second]!.includes(first) || crosses[first]!.includes(second);
  }

  /** Area and reach, without a closer look. */
  private isAlike(part: number, seat: number): boolean {
    const { largestInsetMm, toleranceMm } = RULES;
    const reach = Math.abs(Math.sqrt(this.spread[part]!) - Math.sqrt(this.spread[seat]!));
    return reach <= (largestInsetMm + toleranceMm) * 1.5;
  }

  private isTwin(part: number, seat: number): boolean {
    const key = `${part} ${seat}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    if (this.comparisons++ >= MOST_COMPARISONS) return false;
    const { outlines } = this.meetings;
    const found = matchRing(outlines[part]!.ring, outlines[seat]!.ring, RULES) !== null;
    this.known.set(key, found);
    return found;
  }
}

const RULES: MatchRules = DEFAULT_MATCH_RULES;
