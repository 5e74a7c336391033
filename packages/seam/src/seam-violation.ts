import type { Point } from '@underlap/geometry/point';

/** Something that a plan must not do; `code` is stable. */
export interface SeamViolation {
  readonly code:
    | 'area'
    | 'overlap'
    | 'self-crossing'
    | 'parts'
    | 'fit'
    | 'neck'
    | 'lock'
    | 'no-knob'
    | 'keep-out'
    | 'visible'
    | 'held'
    | 'angle'
    | 'sliver'
    | 'junction';
  readonly message: string;
  readonly at: Point | null;
}
