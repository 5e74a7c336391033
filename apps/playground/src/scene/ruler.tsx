import { rulerStep } from '../picture/viewport.ts';
import { useSay } from '../state/use-say.ts';
import type { LengthUnit } from '../units/length.ts';

const MM_PER_INCH = 25.4;

/** A scale bar: one round length in the user's unit, as long on screen as it is in the drawing. */
export function Ruler({ scale, unit }: { readonly scale: number; readonly unit: LengthUnit }) {
  const perUnit = unit === 'in' ? MM_PER_INCH : 1;
  const length = rulerStep(scale * perUnit, 56);
  const width = length * perUnit * scale;
  const say = useSay();
  const words = say.length(length * perUnit, 3);
  return (
    <div className="ruler" style={{ width }} role="img" aria-label={say.t('scene.ruler', { length: words })}>
      <span>{words}</span>
    </div>
  );
}
