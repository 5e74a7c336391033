/** Characters of a text entity in one style. */
export interface StyledWords {
  readonly text: string;
  /** Font family named in the text itself; null = that of the entity's style. */
  readonly family: string | null;
  readonly bold: boolean;
  readonly italic: boolean;
  /** Height as a share of the entity's own. */
  readonly scale: number;
}

const PLAIN: Omit<StyledWords, 'text'> = { family: null, bold: false, italic: false, scale: 1 };

/** Groups within groups within groups: more is no text. */
const MOST_NESTED = 40;

/** Heights beyond these shares of the entity's own are a mistake. */
const [LEAST_SCALE, MOST_SCALE] = [0.01, 100];

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
const CONTROLS = /[\u0000-\u001f\u007f-\u009f]/g;

/**
 * The characters that the codes of a single-line text stand for: `%%d` a degree, `%%p` plus-minus, `%%c` a diameter, `%%065` a
 * character by number; lines over and under are left out.
 * @remarks Source: DXF reference, TEXT; `\U+XXXX` stands for a character in any text.
 */
export function plainWords(written: string): string {
  return written
    .replace(/\\U\+([0-9A-Fa-f]{4})/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)))
    .replace(/%%(\d{3}|.)/g, (_, code: string) => {
      if (code === '%') return '%';
      if (/^\d/.test(code)) return code.length === 3 ? String.fromCharCode(Number(code)) : '';
      return { d: '\u00b0', p: '\u00b1', c: '\u2300' }[code.toLowerCase()] ?? '';
    })
    .replace(CONTROLS, '');
}

/**
 * The lines of a text of several lines, each in stretches of one style.
 * @remarks Source: DXF reference, MTEXT: `\P` ends a line, `\f` and `\F` name a font, `\H` a height, `{}` keep what is changed
 * within them, `\S1/2;` stacks two texts (here set one behind the other); colours, widths, slants, tracking and lines are left out.
 */
export function styledLines(written: string): StyledWords[][] {
  const lines: StyledWords[][] = [[]];
  const outer: Omit<StyledWords, 'text'>[] = [];
  let style = PLAIN;
  let words = '';
  const finish = () => {
    const text = plainWords(words);
    if (text !== '') lines.at(-1)!.push({ ...style, text });
    words = '';
  };
  const change = (to: Partial<typeof style>) => {
    finish();
    style = { ...style, ...to };
  };
  for (let at = 0; at < written.length; at++) {
    const sign = written[at]!;
    if (sign === '{' && outer.length < MOST_NESTED) {
      finish();
      outer.push(style);
    } else if (sign === '}') {
      finish();
      style = outer.pop() ?? style;
    } else if (sign !== '\\') words += sign;
    else {
      const code = written[++at] ?? '';
      // What a code says goes on to its semicolon.
      const value = (): string => {
        const end = written.indexOf(';', at);
        const text = written.slice(at + 1, end < 0 ? written.length : end);
        at = end < 0 ? written.length : end;
        return text;
      };
      if (code === 'P' || code === 'N' || code === 'X') {
        finish();
        lines.push([]);
      } else if (code === '~') words += '\u00a0';
      else if (code === '\\' || code === '{' || code === '}') words += code;
      else if (code === 'U' || code === 'M') words += `\\${code}`;
      else if (code === 'f' || code === 'F') change(faceOf(value()));
      else if (code === 'H') change({ scale: scaleOf(value(), style.scale) });
      else if (code === 'S') words += value().replace(/[#^]/, '/').replace(/\s+/g, '');
      else if ('ACcQTWp'.includes(code)) value();
      // Lines over, under and through what follows are no letters.
      else if (!'LlOoKk'.includes(code)) words += code;
    }
  }
  finish();
  return lines;
}

/** `Family|b1|i0|c0|p34`; a file name stands for the family that it is called after. */
function faceOf(written: string): Partial<StyledWords> {
  const [name = '', ...flags] = written.split('|');
  const family = name.replace(/\.(?:ttf|otf|shx|ttc)$/i, '').trim();
  return { family: family === '' ? null : family, bold: flags.includes('b1'), italic: flags.includes('i1') };
}

/** `2.5x` is a share of the height so far; a bare number is a height in drawing units, which only the entity can judge: left as it is. */
function scaleOf(written: string, before: number): number {
  const share = /^([\d.]+)x$/i.exec(written.trim());
  const scale = share === null ? before : before * Number(share[1]);
  return Number.isFinite(scale) && scale >= LEAST_SCALE && scale <= MOST_SCALE ? scale : before;
}
