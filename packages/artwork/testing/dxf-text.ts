/** Builds DXF text for tests: groups as alternating codes and values. */
export type Groups = readonly (string | number)[];

export interface DxfParts {
  /** Header variables by name, all with group 70. */
  readonly header?: Readonly<Record<string, number>>;
  /** Groups of LAYER table entries after their own `0 LAYER`. */
  readonly layers?: readonly Groups[];
  /** Blocks: name, base point and entities. */
  readonly blocks?: readonly {
    readonly name: string;
    readonly base?: readonly [number, number];
    readonly entities: Groups;
  }[];
  readonly entities: Groups;
}

export function groupsText(groups: Groups): string {
  let text = '';
  for (let i = 0; i < groups.length; i += 2) text += `${String(groups[i]).padStart(3)}\n${groups[i + 1]}\n`;
  return text;
}

/** A whole file. */
export function dxfText({ header = {}, layers = [], blocks = [], entities }: DxfParts): string {
  return groupsText([
    ...[0, 'SECTION', 2, 'HEADER'],
    ...Object.entries(header).flatMap(([name, value]) => [9, name, 70, value]),
    ...[0, 'ENDSEC', 0, 'SECTION', 2, 'TABLES', 0, 'TABLE', 2, 'LAYER', 70, layers.length],
    ...layers.flatMap((layer) => [0, 'LAYER', ...layer]),
    ...[0, 'ENDTAB', 0, 'ENDSEC', 0, 'SECTION', 2, 'BLOCKS'],
    ...blocks.flatMap(({ name, base = [0, 0], entities: inner }) => [
      ...[0, 'BLOCK', 2, name, 70, 0, 10, base[0], 20, base[1]],
      ...inner,
      ...[0, 'ENDBLK'],
    ]),
    ...[0, 'ENDSEC', 0, 'SECTION', 2, 'ENTITIES'],
    ...entities,
    ...[0, 'ENDSEC', 0, 'EOF'],
  ]);
}

export function line(x1: number, y1: number, x2: number, y2: number, layer = '0'): Groups {
  return [0, 'LINE', 8, layer, 10, x1, 20, y1, 11, x2, 21, y2];
}

/** Points with an optional bulge each. */
export function lightPolyline(points: readonly (readonly number[])[], closed: boolean, layer = '0'): Groups {
  return [
    ...[0, 'LWPOLYLINE', 8, layer, 90, points.length, 70, closed ? 1 : 0],
    ...points.flatMap(([x = 0, y = 0, bulge]) => [10, x, 20, y, ...(bulge === undefined ? [] : [42, bulge])]),
  ];
}

export function oldPolyline(points: readonly (readonly number[])[], closed: boolean, layer = '0'): Groups {
  return [
    ...[0, 'POLYLINE', 8, layer, 66, 1, 10, 0, 20, 0, 30, 0, 70, closed ? 1 : 0],
    ...points.flatMap(([x = 0, y = 0, bulge = 0]) => [0, 'VERTEX', 8, layer, 10, x, 20, y, 30, 0, 42, bulge]),
    ...[0, 'SEQEND', 8, layer],
  ];
}

export interface SplineParts {
  readonly degree: number;
  readonly flags?: number;
  readonly knots?: readonly number[];
  readonly controls?: readonly (readonly [number, number])[];
  readonly weights?: readonly number[];
  readonly fits?: readonly (readonly [number, number])[];
}

export function spline({ degree, flags = 0, knots = [], controls = [], weights = [], fits = [] }: SplineParts): Groups {
  return [
    ...[0, 'SPLINE', 8, '0', 70, flags, 71, degree, 72, knots.length, 73, controls.length, 74, fits.length],
    ...knots.flatMap((knot) => [40, knot]),
    ...weights.flatMap((weight) => [41, weight]),
    ...controls.flatMap(([x, y]) => [10, x, 20, y, 30, 0]),
    ...fits.flatMap(([x, y]) => [11, x, 21, y, 31, 0]),
  ];
}
