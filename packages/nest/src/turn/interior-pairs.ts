/**
 * One kind of inequality of an interior-point method: values that stay above 0 and their multipliers, whose products are brought to
 * 0 together, and the step looked at for both.
 */
export class Pairs {
  readonly value: Float64Array;
  readonly multiplier: Float64Array;
  readonly valueStep: Float64Array;
  readonly multiplierStep: Float64Array;

  /** @param value - where they start, kept and changed. */
  constructor(value: Float64Array, multiplier: number) {
    this.value = value;
    this.multiplier = new Float64Array(value.length).fill(multiplier);
    this.valueStep = new Float64Array(value.length);
    this.multiplierStep = new Float64Array(value.length);
  }

  product(k: number): number {
    return this.value[k]! * this.multiplier[k]!;
  }

  ratio(k: number): number {
    return this.value[k]! / this.multiplier[k]!;
  }

  /** How far the product is below `centre`; a corrector reckons with the product of the two steps as well. */
  shortfall(k: number, centre: number, isCorrector: boolean): number {
    const steps = isCorrector ? this.valueStep[k]! * this.multiplierStep[k]! : 0;
    return centre - this.value[k]! * this.multiplier[k]! - steps;
  }

  /** The product after shares of the steps. */
  ahead(k: number, ofValues: number, ofMultipliers: number): number {
    return (
      (this.value[k]! + ofValues * this.valueStep[k]!) * (this.multiplier[k]! + ofMultipliers * this.multiplierStep[k]!)
    );
  }

  go(ofValues: number, ofMultipliers: number): void {
    for (let k = 0; k < this.value.length; k++) {
      this.value[k]! += ofValues * this.valueStep[k]!;
      this.multiplier[k]! += ofMultipliers * this.multiplierStep[k]!;
    }
  }
}

/** Largest share of the steps, up to `most`, that keeps all values above 0. */
export function longestStep(values: Float64Array, steps: Float64Array, most: number): number {
  let share = most;
  for (let k = 0; k < values.length; k++) {
    if (steps[k]! < 0 && -values[k]! / steps[k]! < share) share = -values[k]! / steps[k]!;
  }
  return share;
}
