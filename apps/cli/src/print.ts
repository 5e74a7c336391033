import { harmlessText } from '@underlap/artwork/harmless-text';

/** Answer on stdout. Names from drawings, jobs and files cannot steer the terminal. */
export function print(text: string): void {
  process.stdout.write(harmlessText(text));
}

/** Tell on stderr, as harmlessly. */
export function tell(text: string): void {
  process.stderr.write(harmlessText(text));
}
