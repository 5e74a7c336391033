import type { Spot } from '../state/matters.ts';
import { useSay } from '../state/use-say.ts';
import { useShow } from './use-show.ts';

/** A way from something told to its place in the picture. */
export function ShowPlace({ spot }: { readonly spot: Spot }) {
  const say = useSay();
  const show = useShow();
  return (
    <button type="button" className="quiet" onClick={() => show({ stage: spot.stage, spot })}>
      {say.t('matter.place')}
    </button>
  );
}
