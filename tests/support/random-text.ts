/** Words of several scripts, with ligatures, kerned pairs, accents and marks. */
const WORDS = [
  ...[
    'Gull',
    'AVATo',
    'office',
    'fluffy',
    'Wy.',
    'Quay 12',
    'Mole Head',
    '\u00c5ngstr\u00f6m',
    'e\u0301le',
    'Tj\u00f6rn',
  ],
  ...[
    '\u039b\u03b9\u03bc\u03ac\u03bd\u03b9',
    '\u0413\u0430\u0432\u0430\u043d\u044c',
    '\u05e0\u05de\u05dc',
    '\u0645\u064a\u0646\u0627\u0621',
    '\u05e0\u05de\u05dc 12',
  ],
];

/**
 * A text element with random style, anchor, places, shifts, turns, spacing, lines and transforms; it stays near the page.
 * @param random - 0 to 1.
 */
export function randomText(random: () => number): string {
  const between = (low: number, high: number) => (low + (high - low) * random()).toFixed(2);
  const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)]!;
  const maybe = (share: number, attribute: () => string) => (random() < share ? ` ${attribute()}` : '');
  const list = (count: number, low: number, high: number) =>
    Array.from({ length: count }, () => between(low, high)).join(' ');
  const isPlain = (words: string) => /^[A-Za-z ]+$/.test(words);
  const kind = random();
  const isStretched = kind < 0.2;
  // The renderer counts the gap behind the last letter of a stretched text, leaves shifts out of the middle, keeps ligatures of spaced
  // letters and stretches their gaps another way: there SVG 2 and CSS are followed, which say otherwise.
  const anchor = isStretched ? 'start' : pick(['start', 'middle', 'end']);
  const isSpaced = !isStretched && random() < 0.3;
  const words = () => pick(isSpaced ? WORDS.filter((word) => !/f[fi]/.test(word)) : WORDS);
  const word = words();
  // Shifts count in the order of reading; the renderer takes them in the order in which letters stand.
  const isRightToLeft = /[\u0590-\u06ff]/.test(word);
  const shiftCount = () => (anchor === 'start' ? 1 + Math.floor(random() * 4) : 1);
  const style = [
    `font-size="${between(12, 34)}"`,
    `text-anchor="${anchor}"`,
    maybe(isSpaced ? 1 : 0, () => `letter-spacing="${between(-1, 4)}"`),
    maybe(0.3, () => `word-spacing="${between(-2, 9)}"`),
    maybe(
      0.3,
      () =>
        `transform="translate(${between(-5, 5)} ${between(-5, 5)}) rotate(${between(-6, 6)} 150 50) skewX(${between(-9, 9)})"`,
    ),
  ].join(' ');
  const shifts = [
    maybe(isRightToLeft ? 0 : 0.3, () => `dx="${list(shiftCount(), 0, 6)}"`),
    maybe(0.3, () => `dy="${list(1 + Math.floor(random() * 4), -4, 4)}"`),
    isPlain(word) ? maybe(0.25, () => `rotate="${list(1 + Math.floor(random() * 3), -25, 25)}"`) : '',
  ].join('');
  const open = `<text id="words" font-family="DejaVu Sans" ${style}`;
  if (kind < 0.45) {
    const length = isStretched
      ? ` textLength="${between(60, 200)}" lengthAdjust="${pick(['spacing', 'spacingAndGlyphs'])}"`
      : '';
    return `${open} x="${between(120, 180)}" y="${between(40, 60)}"${length === '' ? shifts : length}>${word}</text>`;
  }
  if (kind < 0.6) {
    const places = [...Array(1 + Math.floor(random() * 4)).keys()]
      .map((at) => 60 + 45 * at + Math.floor(random() * 20))
      .join(' ');
    return `${open} x="${places}" y="${between(40, 60)}">${pick(['Buoy', 'Anchor', 'Sail'])}</text>`;
  }
  if (kind < 0.8) {
    const line = (y: number) => `<tspan x="150" y="${y}" font-size="${between(10, 22)}">${words()}</tspan>`;
    return `${open}>${line(30)}${line(55)}${line(80)}</text>`;
  }
  const inner = `<tspan${maybe(0.6, () => `dy="${between(-6, 6)}"`)} font-size="${between(10, 30)}">${pick(['Gull', 'Rope', 'Mole'])}</tspan>`;
  return `${open} x="150" y="55">${pick(['Old ', 'New'])}${inner}${pick([' quay', 'er'])}</text>`;
}
