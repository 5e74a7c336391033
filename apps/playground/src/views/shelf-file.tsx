import type { Shelf } from '@underlap/job/shelf';
import { useRef, useState } from 'react';
import type { Desk } from '../state/desk.ts';
import { jobToPlan } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { ShelfHelp } from '../workers/api.ts';
import { saveBytes } from './save-bytes.ts';

/** The shop's shelf file: what of it saves a board, and what a job that is cut takes from it and leaves on it. */
export function ShelfFile({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const input = useRef<HTMLInputElement>(null);
  const [open, setOpen] = useState<{ readonly name: string; readonly shelf: Shelf } | null>(null);
  const [help, setHelp] = useState<ShelfHelp | null>(null);
  const [isBusy, setBusy] = useState(false);
  const take = (file: File): void =>
    void session.attempt(async () => {
      const text = await file.text();
      const shelf = await session.client.ask((api) => api.openShelf(text, file.name));
      setOpen({ name: file.name, shelf });
      setHelp(null);
    });
  const use = (shelf: Shelf): void => {
    setBusy(true);
    void session
      .attempt(async () => {
        const found = await session.client.ask((api) => api.shelfHelp(jobToPlan(desk), shelf));
        setHelp(found);
        const { take: change } = found;
        if (change !== null) session.actOnJob(say.t('step.shelf'), (job) => ({ ...job, ...change }));
      })
      .finally(() => setBusy(false));
  };
  const book = (): void =>
    void session.attempt(async () => {
      const name = open?.name ?? 'shelf.json';
      const shelf = open?.shelf ?? (await session.client.ask((api) => api.openShelf(null, name)));
      const booked = await session.client.ask((api) => api.bookShelf(shelf, name));
      setOpen({ name, shelf: booked.shelf });
      saveBytes(booked.file.name, booked.file.mime, booked.file.bytes);
      session.notices.say(say.t('notice.saved', { file: name }));
    });
  return (
    <>
      <input
        ref={input}
        hidden
        type="file"
        aria-label={say.t('shelf-file.label')}
        accept=".json,application/json"
        onChange={(event) => {
          const [file] = event.target.files ?? [];
          if (file !== undefined) take(file);
          event.target.value = '';
        }}
      />
      <p className="sentence">
        {open === null
          ? say.t('shelf-file.none')
          : say.t('shelf-file.open', { name: open.name, n: open.shelf.offcuts.length })}
      </p>
      {help === null ? null : (
        <>
          <p className="sentence">
            {help.used.length === 0
              ? say.t('shelf-file.no-help')
              : say.t('shelf-file.help', {
                  names: say.list(help.used),
                  boards: help.boardsWith,
                  before: help.boardsWithout,
                })}
          </p>
          <ul className="told">
            {help.left.map(({ id, why }) => (
              <li key={id}>{say.t('shelf-file.stays', { name: id, why })}</li>
            ))}
          </ul>
        </>
      )}
      <div className="buttons">
        <button type="button" onClick={() => input.current?.click()}>
          {say.t('shelf-file.choose')}
        </button>
        {open === null ? null : (
          <button type="button" disabled={isBusy} onClick={() => use(open.shelf)}>
            {say.t(isBusy ? 'shelf-file.busy' : 'shelf-file.use')}
          </button>
        )}
        <button type="button" onClick={book}>
          {say.t('shelf-file.book')}
        </button>
      </div>
    </>
  );
}
