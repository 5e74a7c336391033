declare module 'virtual:ready-sample' {
  /** JSON of a ReadySample; null when there was no time to make one (while developing). */
  export const readySample: string | null;
}
