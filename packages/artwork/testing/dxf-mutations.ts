import { dxfText, lightPolyline, line, oldPolyline, spline } from './dxf-text.ts';

/** One drawing with every kind of thing that is read, for tests that spoil it. */
export function everythingText(): string {
  return dxfText({
    header: { $INSUNITS: 4, $MEASUREMENT: 1 },
    layers: [
      [2, 'cut', 70, 0, 62, 5],
      [2, 'off', 70, 0, 62, -3],
    ],
    blocks: [
      {
        name: 'gull',
        base: [1, 1],
        entities: [
          ...lightPolyline(
            [
              [0, 0, 0.4],
              [9, 0],
              [4, 6],
            ],
            true,
          ),
          62,
          0,
        ],
      },
      {
        name: 'flock',
        entities: [0, 'INSERT', 2, 'gull', 10, 5, 20, 5, 41, 2, 42, -1, 50, 30, 70, 2, 71, 2, 44, 12, 45, 9],
      },
    ],
    entities: [
      ...line(0, 0, 30, 40, 'cut'),
      ...line(30, 40, 60, 0, 'cut'),
      ...line(60, 0, 0, 0, 'cut'),
      ...[0, 'ARC', 8, 'cut', 10, 50, 20, 50, 40, 20, 50, 350, 51, 20],
      ...[0, 'CIRCLE', 8, 'cut', 10, 50, 20, 50, 40, 8, 210, 0, 220, 0, 230, -1],
      ...[0, 'ELLIPSE', 8, 'cut', 10, 9, 20, 9, 11, 3, 21, 4, 40, 0.5, 41, 0, 42, 4.5],
      ...lightPolyline(
        [
          [0, 0],
          [40, 0, 1],
          [40, 20],
          [0, 20, -0.5],
        ],
        true,
        'cut',
      ),
      ...oldPolyline(
        [
          [70, 0],
          [90, 0, 0.3],
          [90, 20],
        ],
        true,
        'cut',
      ),
      ...spline({
        degree: 3,
        knots: [0, 0, 0, 0, 1, 2, 2, 2, 2],
        controls: [
          [0, 0],
          [0, 40],
          [40, 40],
          [40, 0],
          [60, 5],
        ],
      }),
      ...spline({
        degree: 2,
        flags: 4,
        knots: [0, 0, 0, 1, 1, 1],
        controls: [
          [0, 0],
          [5, 9],
          [9, 0],
        ],
        weights: [1, 0.4, 1],
      }),
      ...spline({
        degree: 3,
        flags: 1,
        fits: [
          [0, 60],
          [20, 80],
          [40, 60],
          [20, 50],
        ],
      }),
      ...[0, 'INSERT', 2, 'flock', 8, 'cut', 10, 100, 20, 100, 50, 45],
      ...[0, 'TEXT', 8, 'off', 10, 1, 20, 2, 1, 'pier'],
    ],
  });
}

/** Numbers and words that files hold when something went wrong on the way. */
const HOSTILE: readonly string[] = [
  ...['NaN', 'Infinity', '-1e308', '1e308', '1e-320', '0', '-0', '-1', '1', '3', '1e12', '999999999999', '1e9', '0.5'],
  ...['', 'ENDSEC', 'EOF', 'SECTION', 'BLOCK', 'ENDBLK', 'INSERT', 'gull', 'flock', 'SPLINE', 'LWPOLYLINE', 'SEQEND'],
  ...[
    '10',
    '20',
    '40',
    '42',
    '70',
    '71',
    '41',
    '11',
    '12',
    '66',
    '100',
    '101',
    '210',
    '\u0001\u0002',
    '32767',
    '-32768',
  ],
];

/** The text with one to twelve faults in it: lines lost, doubled, swapped, replaced, or the end cut off. */
export function spoilt(text: string, random: () => number): string {
  const lines = text.split('\n');
  const somewhere = () => Math.floor(random() * lines.length);
  const faults = 1 + Math.floor(random() * 12);
  for (let i = 0; i < faults && lines.length > 0; i++) {
    const at = somewhere();
    switch (Math.floor(random() * 7)) {
      case 0:
        lines.splice(at, 1 + Math.floor(random() * 3));
        break;
      case 1:
        lines.splice(at, 0, ...lines.slice(at, at + 1 + Math.floor(random() * 20)));
        break;
      case 2: {
        const other = somewhere();
        [lines[at], lines[other]] = [lines[other]!, lines[at]!];
        break;
      }
      case 3:
        if (random() < 0.2) lines.length = at;
        break;
      default:
        lines[at] = HOSTILE[Math.floor(random() * HOSTILE.length)]!;
    }
  }
  return lines.join('\n');
}
