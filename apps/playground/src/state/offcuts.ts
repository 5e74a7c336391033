import type { Observable } from './observable.ts';

/** A rest of a board that waits for another job. */
export interface KeptOffcut {
  readonly id: string;
  readonly name: string;
  /** SVG path data, mm. */
  readonly outline: string;
  readonly areaMm2: number;
  readonly keptAt: number;
}

/** Offcuts that wait for another job. */
export interface OffcutShelf {
  readonly offcuts: Observable<readonly KeptOffcut[]>;
  keep(offcut: Omit<KeptOffcut, 'id' | 'keptAt'>): void;
  forget(id: string): void;
}
