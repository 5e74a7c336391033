import { rulerStep } from '../picture/viewport.ts';
import { useSay } from '../state/use-say.ts';
import { LENGTH_UNITS, type LengthUnit } from '../units/length.ts';

/** A scale bar: one round length in the user's unit, as long on screen as it is in the drawing. */
export function Ruler({ scale, unit }: { readonly scale: number; readonly unit: LengthUnit }) {
  const perUnit = LENGTH_UNITS[unit].mm;
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
