import { describe, expect, it } from 'vitest';
import { redo, startHistory, takeStep, undo } from './history.ts';

describe('history', () => {
  it('walks back and forth through named steps', () => {
    let history = startHistory(1);
    history = takeStep(history, 'two', 2, 0);
    history = takeStep(history, 'three', 3, 1);
    expect(history.past.map((step) => step.name)).toEqual(['two', 'three']);
    history = undo(undo(history));
    expect(history.present).toBe(1);
    expect(undo(history)).toBe(history);
    history = redo(redo(history));
    expect(history.present).toBe(3);
    expect(redo(history)).toBe(history);
  });

  it('gives up what had been undone when something else is done', () => {
    const history = takeStep(undo(takeStep(startHistory(1), 'two', 2, 0)), 'nine', 9, 1);
    expect(history.present).toBe(9);
    expect(history.future).toEqual([]);
  });

  it('counts a gesture as one step, but not the next gesture', () => {
    let history = startHistory(0);
    for (let i = 1; i <= 5; i++) history = takeStep(history, 'moved', i, i * 10, 'drag');
    expect(history.past).toHaveLength(1);
    history = takeStep(history, 'moved', 6, 10_000, 'drag');
    expect(history.past).toHaveLength(2);
    expect(undo(history).present).toBe(5);
    expect(undo(undo(history)).present).toBe(0);
  });

  it('adds nothing for an unchanged value and forgets the oldest steps', () => {
    let history = startHistory(0);
    expect(takeStep(history, 'same', 0, 0)).toBe(history);
    for (let i = 1; i <= 150; i++) history = takeStep(history, `${i}`, i, i);
    expect(history.past).toHaveLength(100);
    expect(history.past[0]?.name).toBe('51');
  });
});
