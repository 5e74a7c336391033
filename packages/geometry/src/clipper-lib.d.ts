/** The few names of clipper-lib 6.4 that the adapter uses; the library ships no types of its own. */
declare module 'clipper-lib' {
  export interface IntPoint {
    X: number;
    Y: number;
  }
  export interface PolyNode {
    Contour(): IntPoint[];
    Childs(): PolyNode[];
    IsHole(): boolean;
  }
  interface Library {
    Clipper: new () => {
      AddPaths(paths: IntPoint[][], type: number, closed: boolean): boolean;
      Execute(type: number, solution: PolyNode, subjectFill: number, clipFill: number): boolean;
    };
    ClipperBase: {
      SlopesEqual3: (a: { Delta: IntPoint }, b: { Delta: IntPoint }) => boolean;
      SlopesEqual4: (p: IntPoint, q: IntPoint, r: IntPoint) => boolean;
      SlopesEqual5: (p: IntPoint, q: IntPoint, r: IntPoint, s: IntPoint) => boolean;
    };
    PolyTree: new () => PolyNode;
    PolyType: { ptSubject: number; ptClip: number };
    ClipType: { ctIntersection: number; ctUnion: number; ctDifference: number; ctXor: number };
    PolyFillType: { pftEvenOdd: number; pftNonZero: number; pftPositive: number; pftNegative: number };
  }
  const library: Library;
  // biome-ignore lint/style/noDefaultExport: the library is a single CommonJS object
  export default library;
}
