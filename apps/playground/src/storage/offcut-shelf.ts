import { observable } from '../state/observable.ts';
import type { KeptOffcut, OffcutShelf } from '../state/offcuts.ts';
import { openDatabase } from './database.ts';

/** The shelf as this browser keeps it; in memory only, where it keeps nothing. */
export function startOffcutShelf(): OffcutShelf {
  const offcuts = observable<readonly KeptOffcut[]>([]);
  const database = openDatabase();
  database
    .then((open) => open.getAll('offcuts'))
    .then((kept) => offcuts.update((known) => [...kept, ...known]))
    .catch(() => undefined);
  return {
    offcuts,
    keep: (offcut) => {
      const kept: KeptOffcut = { ...offcut, id: crypto.randomUUID(), keptAt: Date.now() };
      offcuts.update((known) => [...known, kept]);
      database.then((open) => open.put('offcuts', kept)).catch(() => undefined);
    },
    forget: (id) => {
      offcuts.update((known) => known.filter((offcut) => offcut.id !== id));
      database.then((open) => open.delete('offcuts', id)).catch(() => undefined);
    },
  };
}
