import { createContext, useContext, useSyncExternalStore } from 'react';
import type { Observable } from './observable.ts';
import type { Session } from './session.ts';

export const SessionContext = createContext<Session | null>(null);

/** The session of this page. */
export function useSession(): Session {
  const session = useContext(SessionContext);
  if (session === null) throw new Error('The page is drawn outside of its session');
  return session;
}

/** The current value of an observable; the view is drawn again when it is replaced. */
export function useValue<T>(source: Observable<T>): T {
  return useSyncExternalStore(source.subscribe, source.get);
}
