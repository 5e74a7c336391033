import { Fragment, type ReactNode } from 'react';
import { useSay } from '../state/use-say.ts';
import type { Places, WordKey } from '../words/catalogue.ts';

type PhraseProps<Key extends WordKey> = keyof Places<Key, ReactNode> extends never
  ? { readonly of: Key }
  : { readonly of: Key; readonly places: Places<Key, ReactNode> };

/** A phrase whose places hold inputs, buttons or marked words; `<strong>` and `<small>` in a phrase are what they are in HTML. */
export function PhraseView<Key extends WordKey>(props: PhraseProps<Key>): ReactNode {
  const { of, places = {} } = props as { of: WordKey; places?: Readonly<Record<string, ReactNode>> };
  const say = useSay();
  const values = Object.entries(places).map(([name, value]) => [
    name,
    // plain values stay plain: plurals count them; keys keep an input the same input when the words around it change
    typeof value === 'string' || typeof value === 'number' ? value : <Fragment key={name}>{value}</Fragment>,
  ]);
  return say.message(of).format<ReactNode>({
    ...Object.fromEntries(values),
    strong: (parts: ReactNode[]) => <strong key={`strong ${String(parts[0])}`}>{parts}</strong>,
    small: (parts: ReactNode[]) => <small key={`small ${String(parts[0])}`}>{parts}</small>,
  });
}
