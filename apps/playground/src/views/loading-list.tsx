import type { HungSheet } from '../picture/wall.ts';
import { useSay } from '../state/use-say.ts';
import { loadingWords } from './loading-words.ts';

/** A loading by its sheet (from 0) and its number (from 1). */
export interface LoadingAt {
  readonly sheet: number;
  readonly number: number;
}

/** How each board larger than the bed is set on it, in order; a click shows one in the picture. */
export function LoadingList({
  hung,
  looked,
  onLook,
}: {
  readonly hung: readonly HungSheet[];
  readonly looked: LoadingAt | null;
  onLook(at: LoadingAt | null): void;
}) {
  const say = useSay();
  const larger = hung.filter(({ sheet }) => sheet.loadings.length > 0);
  if (larger.length === 0) return null;
  return (
    <section className="loadings" aria-label={say.t('loading.section')}>
      <h3>{say.t('loading.section')}</h3>
      {larger.map(({ sheet: { loadings }, index, times }) => {
        const places = { n: index + 1, count: loadings.length };
        const head =
          loadings[0]?.kind === 'panels'
            ? say.t('loading.sheet-panels', places)
            : loadings.length === 1
              ? say.t('loading.sheet-once', { n: index + 1 })
              : say.t('loading.sheet-moved', places);
        return (
          <div key={index}>
            <p>
              {head} {times > 1 ? say.t('loading.like', { n: times - 1 }) : ''}
            </p>
            <ol>
              {loadings.map((loading) => {
                const isLooked = looked?.sheet === index && looked.number === loading.number;
                return (
                  <li key={loading.number}>
                    <button
                      type="button"
                      className={isLooked ? 'loading is-chosen' : 'loading'}
                      aria-pressed={isLooked}
                      aria-label={say.t('loading.show', { n: loading.number, sheet: index + 1 })}
                      onClick={() => onLook(isLooked ? null : { sheet: index, number: loading.number })}
                    >
                      <strong>{loading.number}</strong>
                    </button>
                    <p>{loadingWords(loading, say).join(' ')}</p>
                  </li>
                );
              })}
            </ol>
          </div>
        );
      })}
      {looked === null ? null : (
        <button type="button" className="quiet" onClick={() => onLook(null)}>
          {say.t('loading.all')}
        </button>
      )}
    </section>
  );
}
