import type { Point } from '@underlap/geometry/point';
import type { Region } from '@underlap/geometry/region';
import type { BuildPlace } from '@underlap/stack/levels';
import type { GlueHabits } from './glue.ts';
import type { PaintPlan } from './paint-plan.ts';

/** One piece as it lies on the bench, in the sign's frame. */
export interface GuidePiece {
  readonly number: string;
  readonly region: Region;
  /** The roomiest place of its face, for its number in pictures. */
  readonly centre: Point;
}

/** One seam between two pieces. */
export interface GuideSeam {
  readonly label: string;
  /** Numbers of the pieces on the left and on the right of its way. */
  readonly numbers: readonly [string, string];
  /** Its two ends. */
  readonly from: Point;
  readonly to: Point;
  readonly lengthMm: number;
  readonly visibleMm: number;
  readonly knobs: readonly GuideKnob[];
}

export interface GuideKnob {
  /** Number of the piece that it belongs to. */
  readonly of: string;
  readonly centre: Point;
  /** Is its head wider than its neck, so that it goes in from above only? */
  readonly isUndercut: boolean;
}

/** Everything that a guide is made of; one sign. */
export interface GuideInput {
  readonly places: readonly BuildPlace[];
  /** By part id. */
  readonly pieces: ReadonlyMap<string, readonly GuidePiece[]>;
  readonly seams: ReadonlyMap<string, readonly GuideSeam[]>;
  /** Rear plates by the part they join. */
  readonly plates: ReadonlyMap<string, readonly GuidePiece[]>;
  /** Parts for which a line on what they lie on shows the place. */
  readonly guided: ReadonlySet<string>;
  /** The first part of the same shape, for parts that have one. */
  readonly equals: ReadonlyMap<string, string>;
  readonly thicknessOf: (partId: string) => number;
  readonly glue: GlueHabits;
  readonly painted: 'before' | 'after';
  /** Are there files of the faces that stay bare, and which? */
  readonly masks: 'none' | 'score' | 'stencil';
  readonly paint: PaintPlan;
}

/** One step at the bench, one picture. */
export interface GuideStep {
  readonly kind: 'join' | 'paint' | 'lay';
  readonly title: string;
  /** Sentences, in the order in which things are done. */
  readonly words: readonly string[];
  /** Why it has to be aligned with care; empty when it need not. */
  readonly care: readonly string[];
  /** The step has to be aligned, and the glue sets too fast to do so once it is on. */
  readonly isHasty: boolean;
  readonly partIds: readonly string[];
  readonly numbers: readonly string[];
  readonly glueMl: number;
  readonly glueMm2: number;
  /** Parts that are down before it. */
  readonly down: readonly string[];
}

/** A step before its glue is reckoned. */
export type BareStep = Omit<GuideStep, 'glueMl' | 'isHasty'>;
