import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { LookHere } from './look-here.tsx';

/** Sentences for the user, also read out. */
export function NoticeList() {
  const { notices } = useSession();
  const say = useSay();
  const shown = useValue(notices.shown);
  return (
    <div className="notices" role="status" aria-live="polite">
      {shown.map((notice) => (
        <div key={notice.id} className={`notice ${notice.tone}`}>
          <p>
            {notice.tone === 'look' ? <LookHere /> : null} {notice.text}
          </p>
          <button type="button" onClick={() => notices.dismiss(notice.id)}>
            {say.t('page.close')}
          </button>
        </div>
      ))}
    </div>
  );
}
