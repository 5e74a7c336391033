/** The few calls of jsts that the checks use; the package's own types cover only its bundle. */
declare module 'jsts/org/locationtech/jts/io/WKTReader.js' {
  import type { JstsGeometry } from './jsts-geometry.ts';

  const WKTReader: new () => { read(text: string): JstsGeometry };
  // biome-ignore lint/style/noDefaultExport: this is how the package exports it
  export default WKTReader;
}
declare module 'jsts/org/locationtech/jts/operation/distance/IndexedFacetDistance.js' {
  import type { JstsGeometry } from './jsts-geometry.ts';

  const IndexedFacetDistance: { distance(first: JstsGeometry, second: JstsGeometry): number };
  // biome-ignore lint/style/noDefaultExport: this is how the package exports it
  export default IndexedFacetDistance;
}
declare module 'jsts/org/locationtech/jts/operation/overlay/snap/SnapIfNeededOverlayOp.js' {
  import type { JstsGeometry } from './jsts-geometry.ts';

  const SnapIfNeededOverlayOp: { intersection(first: JstsGeometry, second: JstsGeometry): JstsGeometry };
  // biome-ignore lint/style/noDefaultExport: this is how the package exports it
  export default SnapIfNeededOverlayOp;
}
declare module 'jsts/org/locationtech/jts/geom/util/AffineTransformation.js' {
  import type { JstsGeometry } from './jsts-geometry.ts';

  const AffineTransformation: {
    translationInstance(dx: number, dy: number): { transform(geometry: JstsGeometry): JstsGeometry };
  };
  // biome-ignore lint/style/noDefaultExport: this is how the package exports it
  export default AffineTransformation;
}
declare module 'jsts/org/locationtech/jts/monkey.js';
