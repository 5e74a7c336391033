/** The few calls of clipper2-wasm that the checks use; the package points at a declaration file that it does not ship. */
declare module 'clipper2-wasm' {
  interface Paths {
    push_back(path: object): void;
  }
  interface Library {
    readonly JoinType: { readonly Round: object };
    readonly EndType: { readonly Polygon: object };
    readonly FillRule: { readonly EvenOdd: object; readonly NonZero: object };
    readonly PathsD: new () => Paths;
    MakePathD(coordinates: readonly number[]): object;
    InflatePathsD(
      paths: Paths,
      distance: number,
      join: object,
      end: object,
      mitreLimit: number,
      decimals: number,
      arcTolerance: number,
    ): Paths;
    UnionD(subject: Paths, clip: Paths, rule: object, decimals: number): Paths;
    AreaPathsD(paths: Paths): number;
  }
  const load: () => Promise<Library>;
  // biome-ignore lint/style/noDefaultExport: this is how the package exports it
  export default load;
}
