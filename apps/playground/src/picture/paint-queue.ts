/** Drawing goes on this long at a stretch, ms; then what has come in meanwhile is heard. */
const STRETCH_MS = 8;

/** A picture being drawn: every `next()` draws a little more. */
export type Painting = Iterator<void, void>;

interface Job {
  readonly painting: Painting;
  readonly onDone: () => void;
  readonly onFail: (why: unknown) => void;
}

/**
 * Pictures take turns on one thread: those that are asked for first are finished first, the scene in front before the small
 * ones, a stretch at a time. A picture that cannot be drawn does not keep the others from being drawn.
 */
export class PaintQueue {
  private readonly urgent: Job[] = [];
  private readonly patient: Job[] = [];
  private isRunning = false;

  constructor(
    private readonly later: (step: () => void) => void,
    private readonly now: () => number,
  ) {}

  /** @returns a function that gives the picture up; it does nothing once the picture is done. */
  add(painting: Painting, isUrgent: boolean, onDone: () => void, onFail: (why: unknown) => void): () => void {
    const queue = isUrgent ? this.urgent : this.patient;
    const job = { painting, onDone, onFail };
    queue.push(job);
    if (!this.isRunning) {
      this.isRunning = true;
      this.later(() => this.work());
    }
    return () => {
      const at = queue.indexOf(job);
      if (at !== -1) queue.splice(at, 1);
    };
  }

  private work(): void {
    const stopAt = this.now() + STRETCH_MS;
    for (;;) {
      const queue = this.urgent.length > 0 ? this.urgent : this.patient;
      const [job] = queue;
      if (job === undefined) {
        this.isRunning = false;
        return;
      }
      try {
        if (job.painting.next().done === true) {
          queue.shift();
          job.onDone();
        }
      } catch (error) {
        if (queue[0] === job) queue.shift();
        job.onFail(error);
      }
      if (this.now() >= stopAt) break;
    }
    this.later(() => this.work());
  }
}
