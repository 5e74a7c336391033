import type { Complaint } from '@underlap/artwork/drawing';
import { describe, expect, it } from 'vitest';
import { numberStyle } from '../units/number.ts';
import { stageLead } from '../views/stage-lead.ts';
import { sayIn } from '../words/say.ts';
import type { ArtworkView, BoardsView, FilesView, KindView, StackView } from '../workers/views.ts';
import { mattersOf, mattersUpTo } from './matters.ts';
import { NO_RESULTS, type Results } from './results.ts';

const say = sayIn({ language: 'en', unit: 'mm', numbers: numberStyle('en-GB') });

const complaint = (change: Partial<Complaint>): Complaint => ({
  code: 'text',
  severity: 'warning',
  message: 'a text is left out',
  place: { element: 'text (line 7)', at: { x: 100, y: 50 } },
  ...change,
});
const part = { id: 'sun', name: 'Sun', drawnAt: 'circle (line 6)' };
const artwork = (complaints: readonly Complaint[]): ArtworkView =>
  ({ size: { kind: 'known' }, parts: [part], complaints, repairs: [] }) as unknown as ArtworkView;
const kind = { pieceId: 'sun', name: 'Sun', number: '3' } as KindView;
const boards = (change: Partial<BoardsView> = {}): BoardsView =>
  ({ kinds: [kind], sheets: [{ placements: [] }], unplaced: [], ...change }) as unknown as BoardsView;
const files = (change: Partial<FilesView> = {}): FilesView =>
  ({
    files: [{ name: 'a-sheet-01.svg', kind: 'sheet' }],
    verdict: { ok: true, violations: [] },
    tooLarge: [],
    ...change,
  }) as unknown as FilesView;

/** Everything worked out, and well but for the change. */
function results(change: Partial<Record<keyof Results, unknown>> = {}): Results {
  const views = { artwork: artwork([]), boards: boards(), files: files(), ...change };
  const stages = Object.entries(views).map(([stage, view]) => [
    stage,
    { ...NO_RESULTS.artwork, status: 'done', view, done: 1 },
  ]);
  return { ...NO_RESULTS, ...Object.fromEntries(stages) };
}

const tone = (of: Results): string => stageLead('files', of, say).tone;

describe('what wants to be looked at', () => {
  it('is nothing where all is well, and the files are green', () => {
    expect(mattersUpTo('files', results(), say)).toEqual([]);
    expect(tone(results())).toBe('good');
  });

  it('keeps the files from being green: something left out, no sheet, a piece without a place, a sheet larger than the bed, a refusal', () => {
    const faulty: readonly Results[] = [
      results({ artwork: artwork([complaint({})]) }),
      results({ boards: boards({ sheets: [] }) }),
      results({ boards: boards({ unplaced: [{ pieceId: 'sun', why: 'no board is left' }] }) }),
      results({ files: files({ tooLarge: ['a-sheet-01.svg'] }) }),
      results({ files: files({ verdict: { ok: false, smallestGapMm: 0, smallestMarginMm: 0, violations: [] } }) }),
    ];
    for (const one of faulty) {
      expect(mattersUpTo('files', one, say)).toHaveLength(1);
      expect(tone(one)).toBe('look');
    }
  });

  it('has its place in the picture of its stage: a point, or the part that is meant', () => {
    const [left] = mattersOf('artwork', results({ artwork: artwork([complaint({})]) }), say);
    expect(left?.spot).toEqual({ stage: 'artwork', box: { minX: 80, minY: 30, maxX: 120, maxY: 70 }, key: null });
    const ofPart = complaint({ place: { element: 'circle (line 6)', at: null } });
    const [meant] = mattersOf('artwork', results({ artwork: artwork([ofPart]) }), say);
    expect(meant?.spot).toEqual({ stage: 'artwork', box: null, key: 'part sun' });
  });

  it('tells what hangs in the air once, in the stack', () => {
    const hangs = complaint({ code: 'hangs', message: 'Sun hangs', place: { element: 'circle (line 6)', at: null } });
    const stack = { layers: [{ partId: 'sun', fault: 'hangs' }] } as unknown as StackView;
    const one = results({ artwork: artwork([hangs]), stack });
    expect(mattersUpTo('files', one, say)).toEqual([
      { stage: 'stack', words: 'Sun hangs', spot: { stage: 'stack', box: null, key: 'part sun' } },
    ]);
  });

  it('names pieces by part and number, all copies in one sentence', () => {
    const copy = { pieceId: 'sun', why: 'the boards are used up' };
    const [told, ...others] = mattersOf('boards', results({ boards: boards({ unplaced: [copy, copy] }) }), say);
    expect(told?.words).toBe('2 × Sun (3) has no place: the boards are used up');
    expect(others).toEqual([]);
  });
});
