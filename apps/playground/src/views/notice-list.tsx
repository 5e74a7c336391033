import { useSession, useValue } from '../state/page-context.ts';

/** Sentences for the user, also read out. */
export function NoticeList() {
  const { notices } = useSession();
  const shown = useValue(notices.shown);
  return (
    <div className="notices" role="status" aria-live="polite">
      {shown.map((notice) => (
        <div key={notice.id} className={`notice ${notice.tone}`}>
          <p>
            {notice.tone === 'look' ? <strong>Look here: </strong> : null}
            {notice.text}
          </p>
          <button type="button" onClick={() => notices.dismiss(notice.id)}>
            Close
          </button>
        </div>
      ))}
    </div>
  );
}
