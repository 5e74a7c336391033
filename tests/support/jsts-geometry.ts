/** What the checks need of a geometry of the reference library. */
export interface JstsGeometry {
  getArea(): number;
  getLength(): number;
  isValid(): boolean;
  isEmpty(): boolean;
  distance(other: JstsGeometry): number;
  contains(other: JstsGeometry): boolean;
  intersects(other: JstsGeometry): boolean;
  intersection(other: JstsGeometry): JstsGeometry;
  difference(other: JstsGeometry): JstsGeometry;
  union(other: JstsGeometry): JstsGeometry;
  symDifference(other: JstsGeometry): JstsGeometry;
  buffer(distance: number, quadrantSegments: number): JstsGeometry;
  getNumGeometries(): number;
  getBoundary(): JstsGeometry;
  getCentroid(): { getX(): number; getY(): number };
}
