import type { Job } from '@underlap/job/document';
import { describe, expect, it } from 'vitest';
import type { Desk } from '../state/desk.ts';
import { deskOf, readLastWords, writeLastWords } from './journal.ts';

const desk = (batch: number, text: string): Desk => ({
  job: { batch, artwork: { text, name: 'sign.svg' } } as unknown as Job,
  held: [],
  kept: [],
});

function shelf(room = 1e6) {
  const kept = new Map<string, string>();
  return {
    kept,
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => {
      if (value.length > room) throw new Error('full');
      kept.set(key, value);
    },
    removeItem: (key: string) => void kept.delete(key),
  };
}

describe('the last words of a page that goes', () => {
  it('bring an edit back that the database has not seen, with the drawing it has', () => {
    const [before, after] = [desk(2, '<svg/>'), desk(3, '<svg/>')];
    const box = shelf();
    writeLastWords(box, 'a', after, before, 200);
    expect([...box.kept.values()].join()).not.toContain('<svg/>');
    const words = readLastWords(box, 'a', 100);
    expect(words === null ? null : deskOf(words, before)).toEqual(after);
    // once
    expect(readLastWords(box, 'a', 100)).toBeNull();
  });

  it('bring a job back that was never kept', () => {
    const box = shelf();
    writeLastWords(box, 'a', desk(3, '<svg/>'), null, 200);
    const words = readLastWords(box, 'a', 0);
    expect(words === null ? null : deskOf(words, null)).toEqual(desk(3, '<svg/>'));
  });

  it('say nothing of another job, of an older state, or without the drawing they left out', () => {
    for (const [jobId, keptAt] of [
      ['b', 100],
      ['a', 300],
    ] as const) {
      const box = shelf();
      writeLastWords(box, 'a', desk(3, '<svg/>'), null, 200);
      expect(readLastWords(box, jobId, keptAt)).toBeNull();
    }
    const box = shelf();
    writeLastWords(box, 'a', desk(3, '<svg/>'), desk(2, '<svg/>'), 200);
    const words = readLastWords(box, 'a', 100);
    expect(words === null ? null : deskOf(words, null)).toBeNull();
  });

  it('are left out where there is no room, without a fault', () => {
    const box = shelf(10);
    writeLastWords(box, 'a', desk(3, '<svg/>'), null, 200);
    expect(readLastWords(box, 'a', 0)).toBeNull();
    expect(readLastWords({ ...box, getItem: () => '{' }, 'a', 0)).toBeNull();
  });
});
