import { describe, expect, it } from 'vitest';
import { cuttingGroups, nestedPieces } from './cutting-groups.ts';
import { sheetStyle } from './process-style.ts';
import type { SheetDrawing, SheetPath, SheetProcess } from './sheet-drawing.ts';
import { writeSheetSvg } from './write-svg.ts';

function ring(process: SheetProcess, pieceId: string, x: number, y: number, radius: number): SheetPath {
  const start = { x: x + radius, y };
  const arc = { kind: 'arc' as const, to: start, centre: { x, y }, radius, sweep: 2 * Math.PI };
  return { process, pieceId, contour: { start, segments: [arc], closed: true } };
}

const sheet = (paths: readonly SheetPath[], job = 'harbour'): SheetDrawing => ({
  title: 'harbour <1> & "2"',
  job,
  sheetNumber: 1,
  sheetCount: 1,
  widthMm: 200,
  heightMm: 100,
  seed: 1,
  kerfState: 'nominal',
  kerfMm: 0.2,
  toleranceMm: 0.01,
  paths,
});

/** A small disc in the hole of a ring that lies in the hole of a larger ring, and a lone disc. */
const nested = sheet([
  ring('cut-outer', 'large#1', 50, 50, 45),
  ring('cut-inner', 'large#1', 50, 50, 40),
  ring('cut-outer', 'middle#1', 50, 50, 30),
  ring('cut-inner', 'middle#1', 50, 50, 20),
  ring('cut-outer', 'small#1', 50, 50, 10),
  ring('cut-outer', 'alone#1', 150, 50, 10),
  ring('score', 'large#1', 50, 92, 1),
]);

describe('cutting groups', () => {
  it('are worked out once for every format and the report', () => {
    const inSvg = cuttingGroups(nested, sheetStyle({ rounds: 'nested-first' }));
    expect(cuttingGroups(nested, sheetStyle({ rounds: 'nested-first' }))).toBe(inSvg);
    expect(cuttingGroups(nested, sheetStyle({ rounds: 'by-process' }))).not.toBe(inSvg);
    expect(cuttingGroups({ ...nested }, sheetStyle({ rounds: 'nested-first' }))).not.toBe(inSvg);
  });

  it('come by process when told: marks, holes, outlines', () => {
    const groups = cuttingGroups(nested, sheetStyle({ rounds: 'by-process' }));
    expect(groups.map(({ process }) => process)).toEqual(['score', 'cut-inner', 'cut-outer']);
  });

  it('finish pieces that lie in holes first, since they would drop out with the waste', () => {
    const groups = cuttingGroups(nested, sheetStyle());
    const order = groups.flatMap(({ process, paths }) => paths.map(({ pieceId }) => `${process} ${pieceId}`));
    const at = (step: string) => order.indexOf(step);
    expect(at('cut-outer small#1')).toBeLessThan(at('cut-inner middle#1'));
    expect(at('cut-outer middle#1')).toBeLessThan(at('cut-inner large#1'));
    expect(order).toHaveLength(nested.paths.length);
  });

  it('name the pieces that lie in holes, also in the file', () => {
    expect(nestedPieces(nested.paths)).toEqual(['middle#1', 'small#1']);
    expect(writeSheetSvg(nested, sheetStyle({ rounds: 'by-process' }))).toContain(
      'to be cut before those holes: middle#1, small#1',
    );
  });

  it('are one of a kind on a sheet without nested pieces', () => {
    const flat = sheet(nested.paths.filter(({ pieceId }) => pieceId !== 'small#1' && pieceId !== 'middle#1'));
    expect(cuttingGroups(flat, sheetStyle()).map(({ process }) => process)).toEqual([
      'score',
      'cut-inner',
      'cut-outer',
    ]);
  });

  it('cut small outlines before large ones, whatever way is short', () => {
    const sizes = [200, 4, 30, 5, 300, 6];
    const paths = sizes.map((radius, k) => ring('cut-outer', `p${k}#1`, 100 + 200 * k, 100, radius));
    const [group] = cuttingGroups(sheet(paths), sheetStyle());
    const order = group!.paths.map(({ pieceId }) => sizes[Number(pieceId[1])]!);
    expect(order.slice(0, 3).sort((a, b) => a - b)).toEqual([4, 5, 6]);
    expect(order[3]).toBe(30);
    expect(order).toHaveLength(6);
  });

  it('keep numbers apart and drop them when told', () => {
    const number = { ...ring('score', 'alone#1', 150, 50, 2), role: 'number' as const };
    const numbered = sheet([...nested.paths, number]);
    expect(cuttingGroups(numbered, sheetStyle()).filter(({ isNumbers }) => isNumbers)).toHaveLength(1);
    expect(cuttingGroups(numbered, sheetStyle({ showsNumbers: false })).some(({ isNumbers }) => isNumbers)).toBe(false);
  });
});

describe('text in an SVG sheet', () => {
  it('is made safe for XML', () => {
    const svg = writeSheetSvg(sheet(nested.paths, 'a\u0000b\ud800"<&>'));
    expect(svg).toContain('<title>harbour &lt;1&gt; &amp; &quot;2&quot;</title>');
    expect(svg).toContain('data-job="a\ufffdb\ufffd&quot;&lt;&amp;&gt;"');
  });
});
