import { contourArea, contourBounds, contourLength } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import type { Drawing } from '../drawing.ts';
import { readSvg } from './read-svg.ts';

/** Expected figures by hand, meanings from CSS Masking Level 1, 'Clipping Paths'. */

const page = (body: string): Drawing =>
  readSvg(`<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">${body}</svg>`, {
    name: 'gull.svg',
  });
const CIRCLE = '<clipPath id="c"><circle cx="50" cy="50" r="20"/></clipPath>';
const areas = (drawing: Drawing) =>
  drawing.shapes.map(({ contours }) =>
    Number(contours.reduce((sum, contour) => sum + contourArea(contour), 0).toFixed(6)),
  );
const codes = (drawing: Drawing) => [...new Set(drawing.complaints.map(({ code }) => code))];
const quarter = (Math.PI * 400) / 4;

describe('shapes clipped by shapes', () => {
  it('are cut exactly, and curves stay curves', () => {
    const drawing = page(`${CIRCLE}<rect id="a" width="50" height="50" clip-path="url(#c)"/>`);
    expect(areas(drawing)).toEqual([Number(quarter.toFixed(6))]);
    const segments = [...drawing.shapes[0]!.contours[0]!.segments];
    expect(segments.map(({ kind }) => kind).sort()).toEqual(['arc', 'line', 'line']);
    expect(segments.find(({ kind }) => kind === 'arc')).toMatchObject({ centre: { x: 50, y: 50 }, radius: 20 });
    expect(drawing.complaints).toMatchObject([{ code: 'clipped', severity: 'note' }]);
  });

  it('keep their exact contours where the clip does not touch them', () => {
    const body = '<path id="a" d="M45 45 C 50 40 55 40 55 50 A 5 5 0 0 1 45 50 Z"/>';
    const [clipped, plain] = [page(`${CIRCLE}<g clip-path="url(#c)">${body}</g>`), page(body)];
    expect(clipped.shapes[0]!.contours.map(({ segments }) => [...segments])).toEqual(
      plain.shapes[0]!.contours.map(({ segments }) => [...segments]),
    );
    expect(codes(clipped)).toEqual([]);
  });

  it.each([
    ['a group', `${CIRCLE}<g clip-path="url(#c)"><rect width="50" height="50"/></g>`, [quarter]],
    [
      'a use',
      `${CIRCLE}<defs><rect id="r" width="50" height="50"/></defs><use href="#r" clip-path="url(#c)"/>`,
      [quarter],
    ],
    [
      'a use, whose x and y move the clip too',
      `${CIRCLE}<defs><rect id="r" width="50" height="50"/></defs><use href="#r" x="7" y="3" clip-path="url(#c)"/>`,
      [quarter],
    ],
    [
      'by a use within the clip',
      '<defs><circle id="o" r="20"/></defs><clipPath id="c"><use href="#o" x="50" y="50"/></clipPath><rect width="50" height="50" clip-path="url(#c)"/>',
      [quarter],
    ],
    [
      'in the units of the element',
      `${CIRCLE}<g transform="translate(10 5) scale(0.5)"><rect width="50" height="50" clip-path="url(#c)"/></g>`,
      [quarter / 4],
    ],
    [
      'with a transform of the clip',
      '<clipPath id="c" transform="translate(50 50)"><circle r="10" transform="scale(2)"/></clipPath><rect width="50" height="50" clip-path="url(#c)"/>',
      [quarter],
    ],
    [
      'in shares of its box',
      '<clipPath id="c" clipPathUnits="objectBoundingBox"><rect width="0.5" height="0.25"/></clipPath><rect x="10" y="10" width="40" height="80" clip-path="url(#c)"/>',
      [400],
    ],
    [
      'by the union of several',
      '<clipPath id="c"><rect width="10" height="10"/><rect x="5" width="10" height="10"/></clipPath><rect width="90" height="90" clip-path="url(#c)"/>',
      [150],
    ],
    [
      'by a clip with a hole by its rule',
      '<clipPath id="c"><path clip-rule="evenodd" d="M0 0h30v30h-30zM10 10h10v10h-10z"/></clipPath><rect width="90" height="90" clip-path="url(#c)"/>',
      [800],
    ],
    [
      'by a clip whose rule fills it',
      '<clipPath id="c"><path d="M0 0h30v30h-30zM10 10h10v10h-10z"/></clipPath><rect width="90" height="90" clip-path="url(#c)"/>',
      [900],
    ],
    [
      'by clips within clips',
      `${CIRCLE}<clipPath id="d"><rect width="50" height="100" clip-path="url(#c)"/></clipPath><rect width="100" height="50" clip-path="url(#d)"/>`,
      [quarter],
    ],
    [
      'by every group around it',
      `${CIRCLE}<clipPath id="d"><rect width="50" height="100"/></clipPath><g clip-path="url(#c)"><rect width="100" height="50" clip-path="url(#d)"/></g>`,
      [quarter],
    ],
    [
      'by a clip without paint',
      '<clipPath id="c"><circle cx="50" cy="50" r="20" fill="none"/></clipPath><rect width="50" height="50" clip-path="url(#c)"/>',
      [quarter],
    ],
    [
      'not by what is hidden in a clip',
      '<clipPath id="c"><circle cx="50" cy="50" r="20"/><rect width="90" height="90" display="none"/><rect width="80" height="80" visibility="hidden"/></clipPath><rect width="50" height="50" clip-path="url(#c)"/>',
      [quarter],
    ],
    [
      'by a turned viewport',
      '<g transform="rotate(45)"><svg width="20" height="20"><rect width="90" height="90"/></svg></g>',
      [400],
    ],
  ])('%s', (_, body, wanted) => {
    const drawing = page(body);
    expect(areas(drawing)).toEqual(wanted.map((value) => Number(value.toFixed(6))));
    expect(codes(drawing).filter((code) => code !== 'off-page')).toEqual(['clipped']);
  });

  it('become several outlines of one shape where they fall apart', () => {
    const drawing = page(
      '<clipPath id="c"><rect width="10" height="90"/><rect x="20" width="10" height="90"/></clipPath><rect width="40" height="10" clip-path="url(#c)"/>',
    );
    expect(drawing.shapes).toHaveLength(1);
    expect(drawing.shapes[0]!.contours).toHaveLength(2);
  });

  it('are left out and told when nothing of them is seen', () => {
    const body = '<rect width="9" height="9"/>';
    for (const clip of [CIRCLE, '<clipPath id="c"/>']) {
      const drawing = page(`${clip}${body}<rect width="5" height="5" clip-path="url(#c)"/>`);
      expect(drawing.shapes).toHaveLength(1);
      expect(codes(drawing)).toEqual(['hidden']);
    }
  });

  it('lines without a fill are cut to open lines', () => {
    const drawing = page(
      `${CIRCLE}<path d="M0 50H100" stroke="red" stroke-width="0.1" clip-path="url(#c)"/><circle cx="50" cy="50" r="30" fill="none" stroke="blue" stroke-width="0.1" clip-path="url(#d)"/><clipPath id="d"><rect width="50" height="50"/></clipPath>`,
    );
    expect(drawing.shapes.map(({ contours }) => [contours.length, contours[0]!.closed])).toEqual([
      [1, false],
      [1, false],
    ]);
    expect(contourLength(drawing.shapes[0]!.contours[0]!)).toBeCloseTo(40, 6);
    expect(contourBounds(drawing.shapes[0]!.contours[0]!).minX).toBeCloseTo(30, 6);
    expect(contourLength(drawing.shapes[1]!.contours[0]!)).toBeCloseTo(15 * Math.PI, 6);
  });

  it.each([
    ['text', '<clipPath id="c"><text>pier</text></clipPath><rect width="50" height="50" clip-path="url(#c)"/>'],
    [
      'itself',
      '<clipPath id="c"><rect width="20" height="20" clip-path="url(#c)"/></clipPath><rect width="50" height="50" clip-path="url(#c)"/>',
    ],
    ['what is no clip', '<rect id="c" width="20" height="20"/><rect width="50" height="50" clip-path="url(#c)"/>'],
    ['a shape of CSS', '<rect width="50" height="50" style="clip-path: circle(40%)"/>'],
    ['a clip in another file', '<rect width="50" height="50" clip-path="url(other.svg#c)"/>'],
  ])('by %s are told and read whole', (_, body) => {
    const drawing = page(body);
    expect(areas(drawing)).toContain(2500);
    expect(codes(drawing)).toContain('clip-path');
  });

  it('is bounded: many shapes in an intricate clip are told beyond some hundred thousand segments', () => {
    const comb = Array.from({ length: 4000 }, (_, i) => `L${(i % 2) * 90 + 1} ${i / 50}`).join('');
    const many = Array.from(
      { length: 120 },
      (_, i) => `<rect x="${i % 30}" y="${i / 30}" width="9.5" height="0.7"/>`,
    ).join('');
    const drawing = page(`<clipPath id="c"><path d="M0 0${comb}V-1Z"/></clipPath><g clip-path="url(#c)">${many}</g>`);
    expect(codes(drawing)).toContain('clip-path');
    expect(codes(drawing)).toContain('clipped');
  });
});
