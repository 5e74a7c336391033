/** Drawing may take this long of a frame, ms, however many pictures want to be drawn: well under the 50 that people notice. */
const FRAME_MS = 8;

/** A picture being drawn: every `next()` draws a little more. */
export type Painting = Iterator<void, void>;

interface Job {
  readonly painting: Painting;
  readonly onDone: () => void;
}

/**
 * Pictures take turns on the page's one thread: those that are asked for first are finished first, the scene in front
 * before the small ones, and all of them together take no more than their share of a frame.
 */
export class PaintQueue {
  private readonly urgent: Job[] = [];
  private readonly patient: Job[] = [];
  private isRunning = false;

  constructor(
    private readonly onFrame: (step: () => void) => void,
    private readonly now: () => number,
  ) {}

  /** @returns a function that gives the picture up; it does nothing once the picture is done. */
  add(painting: Painting, isUrgent: boolean, onDone: () => void): () => void {
    const queue = isUrgent ? this.urgent : this.patient;
    const job = { painting, onDone };
    queue.push(job);
    if (!this.isRunning) {
      this.isRunning = true;
      this.onFrame(() => this.work());
    }
    return () => {
      const at = queue.indexOf(job);
      if (at !== -1) queue.splice(at, 1);
    };
  }

  private work(): void {
    const stopAt = this.now() + FRAME_MS;
    for (;;) {
      const queue = this.urgent.length > 0 ? this.urgent : this.patient;
      const [job] = queue;
      if (job === undefined) {
        this.isRunning = false;
        return;
      }
      if (job.painting.next().done === true) {
        queue.shift();
        job.onDone();
      }
      if (this.now() >= stopAt) break;
    }
    this.onFrame(() => this.work());
  }
}

/** The queue of this page. */
export const pagePaintQueue = new PaintQueue(
  (step) => requestAnimationFrame(step),
  () => performance.now(),
);
