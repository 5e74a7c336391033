/** Millimetres as a maker reads them: one decimal at most. */
export function mm(value: number): string {
  return `${Number(value.toFixed(1))}`;
}

export function percent(share: number): string {
  return `${(share * 100).toFixed(1)} %`;
}

/** cm2, since mm2 of a sign have too many digits to read. */
export function areaCm2(areaMm2: number): string {
  return `${(areaMm2 / 100).toFixed(areaMm2 < 1000 ? 1 : 0)} cm²`;
}

/** Minutes and seconds. */
export function duration(seconds: number): string {
  const whole = Math.round(seconds);
  const minutes = Math.floor(whole / 60);
  return minutes >= 60
    ? `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')} min`
    : `${minutes}:${String(whole % 60).padStart(2, '0')} min`;
}

export function money(value: number, currency: string): string {
  return `${value.toFixed(2)} ${currency}`;
}

/** Shortest decimal form for coordinates in pictures. */
export function coordinate(value: number): string {
  return String(Number(value.toFixed(3)));
}
