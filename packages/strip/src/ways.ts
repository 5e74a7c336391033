import type { Random } from '@underlap/nest/search/random';

/** What became of the attempts of one kind, older ones fading. */
interface Tally {
  successes: number;
  attempts: number;
  work: number;
}

/** How much earlier attempts still count after each success. */
const FADE = 0.6;

/**
 * Chooses among ways to attempt a thing: each gets a share of the work in proportion to its successes by work so far
 * (probability matching). Deterministic for a random stream, as work is counted in evaluations.
 */
export class Ways {
  readonly #credits: readonly number[];
  readonly #records: Tally[];
  readonly #random: Random;

  /** @param credits - successes that each way is credited with, > 0: its share of the work while none succeeds. */
  constructor(credits: readonly number[], random: Random) {
    this.#credits = credits;
    this.#records = credits.map(() => ({ successes: 0, attempts: 0, work: 0 }));
    this.#random = random;
  }

  /** The way to try next: an untried one first. */
  next(): number {
    const untried = this.#records.findIndex((record) => record.attempts === 0);
    if (untried >= 0) return untried;
    const all = this.#records.reduce((sum, { work }) => sum + work, 0) / this.#records.length;
    // Share of attempts = share of work / work of an attempt.
    const shares = this.#records.map(
      ({ successes, attempts, work }, way) => ((successes + this.#credits[way]!) / (work + all)) * (attempts / work),
    );
    let rest = this.#random() * shares.reduce((sum, share) => sum + share, 0);
    for (let way = 0; way < shares.length; way++) {
      rest -= shares[way]!;
      if (rest < 0) return way;
    }
    return shares.length - 1;
  }

  tell(way: number, work: number, isSuccess: boolean): void {
    if (isSuccess) {
      for (const record of this.#records) {
        record.successes *= FADE;
        record.attempts *= FADE;
        record.work *= FADE;
      }
    }
    const record = this.#records[way]!;
    record.attempts++;
    record.work += work + 1;
    if (isSuccess) record.successes++;
  }
}
