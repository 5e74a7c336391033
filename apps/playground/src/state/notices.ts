import { type Observable, observable } from './observable.ts';

/** A sentence for the user: shown in a quiet place and read out. */
export interface Notice {
  readonly id: number;
  readonly tone: 'plain' | 'look';
  readonly text: string;
}

/** How many sentences stay in sight. */
const NOTICES_SHOWN = 3;

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
      shown.set([...others, { id: nextId++, tone, text }].slice(-NOTICES_SHOWN));
    },
    dismiss: (id) => shown.update((notices) => notices.filter((notice) => notice.id !== id)),
  };
}
