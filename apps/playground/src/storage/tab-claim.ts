/** How long a reloaded page waits for its former self to let go, ms. */
const PATIENCE_MS = 1500;

/** Holding a job: while one tab holds it, no other tab writes to it. */
export interface Claim {
  readonly jobId: string;
  release(): void;
}

/**
 * Take hold of a job for this tab.
 * @param isReload - this tab held it a moment ago: wait a little for the old page to let go.
 * @returns null when another tab holds it. Browsers without locks always grant; the revision check then guards the data.
 */
export async function claimJob(jobId: string, isReload: boolean): Promise<Claim | null> {
  if (navigator.locks === undefined) return { jobId, release: () => undefined };
  const deadline = Date.now() + (isReload ? PATIENCE_MS : 0);
  for (;;) {
    const claim = await tryClaim(jobId);
    if (claim !== null || Date.now() >= deadline) return claim;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

function tryClaim(jobId: string): Promise<Claim | null> {
  return new Promise((resolve) => {
    navigator.locks
      .request(`underlap-job-${jobId}`, { ifAvailable: true }, (lock) => {
        if (lock === null) {
          resolve(null);
          return undefined;
        }
        return new Promise<void>((release) => resolve({ jobId, release }));
      })
      .catch(() => resolve({ jobId, release: () => undefined }));
  });
}
