import { type Observable, observable } from '../state/observable.ts';
import { type KeptOffcut, openDatabase } from './database.ts';

/** Offcuts that wait for another job, kept by this browser (in memory only, where it keeps nothing). */
export interface OffcutShelf {
  readonly offcuts: Observable<readonly KeptOffcut[]>;
  keep(offcut: Omit<KeptOffcut, 'id' | 'keptAt'>): void;
  forget(id: string): void;
}

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
