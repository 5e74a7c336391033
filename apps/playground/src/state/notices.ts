import { type Observable, observable } from './observable.ts';

/** A sentence for the user: shown in a quiet place and read out. */
export interface Notice {
  readonly id: number;
  readonly tone: 'plain' | 'look';
  readonly text: string;
}

/** How many sentences stay in sight. */
const NOTICES_SHOWN = 3;
/** How long a plain sentence stays, ms. */
const PLAIN_MS = 7000;

export interface Notices {
  readonly shown: Observable<readonly Notice[]>;
  say(text: string, tone?: Notice['tone']): void;
  dismiss(id: number): void;
}

export function startNotices(): Notices {
  const shown = observable<readonly Notice[]>([]);
  let nextId = 1;
  return {
    shown,
    say: (text, tone = 'plain') => {
      const others = shown.get().filter((notice) => notice.text !== text);
      const id = nextId++;
      shown.set([...others, { id, tone, text }].slice(-NOTICES_SHOWN));
      // what wants no action goes by itself; what wants to be looked at stays until it is closed
      if (tone === 'plain') setTimeout(() => shown.update((now) => now.filter((notice) => notice.id !== id)), PLAIN_MS);
    },
    dismiss: (id) => shown.update((notices) => notices.filter((notice) => notice.id !== id)),
  };
}
