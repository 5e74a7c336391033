import { describe, expect, it } from 'vitest';
import { conclusionOf } from './comparison.ts';
import { comparisonCsv, studyTable } from './comparison-table.ts';
import { html } from './report-html/html.ts';

describe('markup', () => {
  it('escapes text, also in lists and attributes, and leaves markup alone', () => {
    const bold = html`<b>${'<i>'}</b>`;
    expect(html`<p title="${'"quoted"'}">${[bold, 'a & b', null, 3]}</p>`.text).toBe(
      '<p title="&quot;quoted&quot;"><b>&lt;i&gt;</b>a &amp; b3</p>',
    );
  });

  it('replaces characters that no document may hold', () => {
    expect(html`${'a\u0000b'}`.text).toBe('a\ufffdb');
  });
});

const row = {
  board: '508x305',
  turns: 'half',
  batch: 4,
  boards: 9,
  boardsLowerBound: 8,
  yield: 0.7,
  waste: 0.3,
  largestOffcutMm2: 1,
  boardArea: 1,
  seconds: 1,
  problem: null,
};

describe('comparisons in words and as CSV', () => {
  it('names the axis that changes most', () => {
    const rows = [
      row,
      { ...row, turns: 'any', yield: 0.8, waste: 0.2, boards: 8 },
      { ...row, board: '610x305', yield: 0.72 },
    ];
    expect(conclusionOf(rows)).toMatch(/^The turn rule makes the difference \(up to 10\.0 points.*turns any.*8 boards/);
    expect(conclusionOf([row])).toMatch(/hardly any difference/);
    expect(conclusionOf([{ ...row, problem: 'no' }])).toMatch(/Nothing could be laid out/);
  });

  // RFC 4180: fields with commas or quotes are quoted, quotes doubled, lines end with CRLF.
  it('has the same columns for people and in CSV', () => {
    const rows = [row, { ...row, turns: 'any', yield: 0.8, waste: 0.2, boards: 8, problem: null }];
    const { heads, rows: lines } = studyTable(rows);
    expect(heads.map(({ text }) => text)).toEqual([
      'board mm',
      'turns',
      'batch',
      'boards',
      'at least',
      'a sign',
      'used',
      'waste',
      'largest offcut cm2',
      'seconds',
    ]);
    expect(lines[1]?.map(({ text }) => text)).toEqual([
      '508x305',
      'any',
      '4',
      '8',
      '8',
      '2.00',
      '80.0 %',
      '20.0 %',
      '0',
      '1.0',
    ]);
    expect(lines.map((line) => line.filter(({ isBest }) => isBest).map(({ text }) => text))).toEqual([[], ['80.0 %']]);
    const [head, first] = comparisonCsv(rows).split('\r\n');
    expect(head?.split(',')).toHaveLength(heads.length + 1);
    expect(first).toBe('508x305,half,4,9,8,2.2500,0.700000,0.300000,1.0,1.000,');
  });

  it('quotes what needs it', () => {
    expect(comparisonCsv([{ ...row, problem: 'a, "b"' }])).toContain(',"a, ""b"""\r\n');
  });
});
