import { describe, expect, it } from 'vitest';
import { PaintQueue } from './paint-queue.ts';

/** A clock that every step of a painting moves on, and frames that are counted. */
function workshop(msPerStep: number) {
  const frames: (() => void)[] = [];
  const log: string[] = [];
  let time = 0;
  const queue = new PaintQueue(
    (step) => frames.push(step),
    () => time,
  );
  function* painting(name: string, steps: number): Generator<void, void> {
    for (let i = 1; i <= steps; i++) {
      time += msPerStep;
      log.push(`${name}${i}`);
      yield;
    }
  }
  const run = (): number[] => {
    const spent: number[] = [];
    for (let frame = frames.shift(); frame !== undefined; frame = frames.shift()) {
      const before = time;
      frame();
      spent.push(time - before);
    }
    return spent;
  };
  return { queue, painting, run, log };
}

const fail = (why: unknown): void => {
  throw why;
};

describe('pictures taking turns', () => {
  it('pauses after its stretch, however many pictures wait', () => {
    const { queue, painting, run, log } = workshop(3);
    let done = 0;
    for (const name of ['a', 'b', 'c']) queue.add(painting(name, 4), false, () => done++, fail);
    expect(Math.max(...run())).toBeLessThanOrEqual(9);
    expect(log).toHaveLength(12);
    expect(done).toBe(3);
  });

  it('draws the scene in front before the small pictures', () => {
    const { queue, painting, run, log } = workshop(1);
    queue.add(painting('small', 2), false, () => undefined, fail);
    queue.add(painting('front', 2), true, () => undefined, fail);
    run();
    expect(log).toEqual(['front1', 'front2', 'small1', 'small2']);
  });

  it('gives a picture up when it is no longer wanted', () => {
    const { queue, painting, run, log } = workshop(1);
    const giveUp = queue.add(painting('old', 50), true, () => log.push('old done'), fail);
    queue.add(painting('new', 1), true, () => log.push('new done'), fail);
    giveUp();
    run();
    expect(log).toEqual(['new1', 'new done']);
  });

  it('goes on after a picture that cannot be drawn', () => {
    const { queue, painting, run, log } = workshop(1);
    // biome-ignore lint/correctness/useYield: it fails before it has drawn anything
    function* broken(): Generator<void, void> {
      throw new Error('no paint');
    }
    queue.add(
      broken(),
      true,
      () => undefined,
      (why) => log.push(String(why)),
    );
    queue.add(painting('next', 1), true, () => log.push('next done'), fail);
    run();
    expect(log).toEqual(['Error: no paint', 'next1', 'next done']);
  });
});
