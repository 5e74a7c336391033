import type { BuildPlace } from '@underlap/stack/levels';

/** How the shop spreads glue. */
export interface GlueHabits {
  readonly name: string;
  readonly mlPerSquareMetre: number;
  readonly pricePerLitre: number;
  /** Seconds until parts can no longer be moved. */
  readonly opensSeconds: number;
}

/** Glue for a contact area, ml. */
export function glueMl(areaMm2: number, habits: Pick<GlueHabits, 'mlPerSquareMetre'>): number {
  return (areaMm2 / 1e6) * habits.mlPerSquareMetre;
}

/** All faces of a sign that are glued, mm2. */
export function gluedAreaMm2(places: readonly BuildPlace[]): number {
  return places.reduce((sum, place) => sum + place.gluedTo.reduce((part, contact) => part + contact.areaMm2, 0), 0);
}
