/** The few candidates of least value met so far, in slots that are used again: nothing is made while a search runs. */
export class BestKept<Candidate extends { value: number }> {
  readonly #slots: Candidate[];
  #count = 0;

  /** @param make - one empty slot. */
  constructor(size: number, make: () => Candidate) {
    this.#slots = Array.from({ length: size }, make);
  }

  clear(): void {
    this.#count = 0;
  }

  get count(): number {
    return this.#count;
  }

  /** By rising value; `k` below the count. */
  at(k: number): Candidate {
    return this.#slots[k]!;
  }

  /** What a candidate's value must be below to be kept. */
  get limit(): number {
    const slots = this.#slots;
    return this.#count < slots.length ? Infinity : slots[this.#count - 1]!.value;
  }

  /** The slot, in its place by value, for a candidate below the limit; the caller fills in the rest. */
  take(value: number): Candidate {
    const slots = this.#slots;
    let at = this.#count < slots.length ? this.#count++ : this.#count - 1;
    const slot = slots[at]!;
    for (; at > 0 && slots[at - 1]!.value > value; at--) slots[at] = slots[at - 1]!;
    slots[at] = slot;
    slot.value = value;
    return slot;
  }
}
