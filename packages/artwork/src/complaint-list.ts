import type { Point } from '@underlap/geometry/point';
import type { Complaint } from './drawing.ts';
import { harmlessText } from './harmless-text.ts';

/** A person reads the first few of a kind; the rest are counted. */
const SHOWN_PER_CODE = 40;

/** Collects complaints, at most forty of a kind and then one that counts the rest. */
export class ComplaintList {
  private readonly shown: Complaint[] = [];
  private readonly counts = new Map<string, number>();
  private readonly severities = new Map<string, Complaint['severity']>();

  add(code: string, severity: Complaint['severity'], message: string, element: string, at: Point | null = null): void {
    const count = (this.counts.get(code) ?? 0) + 1;
    this.counts.set(code, count);
    this.severities.set(code, severity);
    const isPlace = at !== null && Number.isFinite(at.x) && Number.isFinite(at.y);
    if (count <= SHOWN_PER_CODE) {
      const place = { element: harmlessText(element), at: isPlace ? at : null };
      this.shown.push({ code, severity, message: harmlessText(message), place });
    }
  }

  count(code: string): number {
    return this.counts.get(code) ?? 0;
  }

  finish(): Complaint[] {
    const more = [...this.counts]
      .filter(([, count]) => count > SHOWN_PER_CODE)
      .map(([code, count]) => ({
        code,
        severity: this.severities.get(code)!,
        message: `${count - SHOWN_PER_CODE} more of this kind are not listed`,
        place: { element: 'drawing', at: null },
      }));
    return [...this.shown, ...more];
  }
}
