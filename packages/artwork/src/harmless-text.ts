/**
 * Characters that steer a terminal (ESC and all others of the two control blocks) or turn the order of what follows (Unicode
 * bidirectional embeddings, overrides and isolates). Tab and line ends are left alone.
 */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
const STEERING = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

/** The text with every steering character replaced by the sign for an unreadable one, so that different names stay different. */
export function harmlessText(text: string): string {
  return text.replace(STEERING, '\ufffd');
}
