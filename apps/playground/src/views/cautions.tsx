import { useSay } from '../state/use-say.ts';
import type { WordKey } from '../words/catalogue.ts';

const CAUTIONS = [
  'caution.watch',
  'caution.fumes',
  'caution.plastics',
  'caution.interlocks',
  'caution.glue',
  'caution.scrap',
] as const satisfies readonly WordKey[];

/** The usual cautions; always there, never in the way. */
export function Cautions() {
  const say = useSay();
  return (
    <footer className="cautions">
      <details>
        <summary>{say.t('caution.title')}</summary>
        <ul>
          {CAUTIONS.map((caution) => (
            <li key={caution}>{say.t(caution)}</li>
          ))}
        </ul>
      </details>
      <p>{say.t('caution.private')}</p>
    </footer>
  );
}
