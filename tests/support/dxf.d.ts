/** The parts of the package dxf that the tests use; it brings no types of its own. */
declare module 'dxf' {
  export class Helper {
    constructor(text: string);
    readonly parsed: { readonly entities: Record<string, unknown>[] };
  }
}

declare module 'dxf/lib/util/colors.js' {
  /** Red, green, blue of each colour number. */
  const colours: readonly (readonly [number, number, number])[];
  export = colours;
}
