import type { RefObject } from 'react';
import type { Page } from '../start-page.ts';
import { useSay } from '../state/use-say.ts';

/** The browser's own choice of a file, behind a button. */
export function OpenFile({ page, input }: { readonly page: Page; readonly input: RefObject<HTMLInputElement | null> }) {
  const say = useSay();
  return (
    <input
      ref={input}
      hidden
      type="file"
      aria-label={say.t('header.file')}
      accept=".svg,.dxf,.json,image/svg+xml,application/json"
      onChange={(event) => {
        void page.openFiles([...(event.target.files ?? [])]);
        event.target.value = '';
      }}
    />
  );
}
