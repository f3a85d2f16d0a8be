/** Which tab this is, and which others are alive: a tab holds a lock with its name for as long as it lives. */

/** Also where `crypto.randomUUID` is missing, outside a secure context. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

export const thisTab = newId();

const lockName = (tab: string) => `stopwright tab ${tab}`;

/** Resolves once the lock is held; never lets go of it. */
export function holdTab(): Promise<void> {
  return new Promise((resolve) => {
    void navigator.locks.request(lockName(thisTab), () => {
      resolve();
      return new Promise<never>(() => {});
    });
  });
}

/** Runs `work` when the tab is gone (or is this one); gives false when it lives. Two callers never both run. */
export async function ifGone(tab: string, work: () => Promise<void>): Promise<boolean> {
  if (tab === thisTab) {
    await work();
    return true;
  }
  return navigator.locks.request(lockName(tab), { ifAvailable: true }, async (lock) => {
    if (lock === null) return false;
    await work();
    return true;
  });
}

/** The same for a tab that has said it is going: waits for its last breath, but no longer than this. */
export async function onceGone(tab: string, milliseconds: number, work: () => Promise<void>): Promise<void> {
  if (tab === thisTab) return work();
  let isGone = false;
  const goneWork = async () => {
    isGone = true;
    await work();
  };
  await navigator.locks
    .request(lockName(tab), { signal: AbortSignal.timeout(milliseconds) }, goneWork)
    .catch((error: unknown) => {
      if (isGone) throw error; // else it lives on, and what it left is its own business
    });
}

interface Said {
  readonly job: string;
  readonly head: string;
  readonly tab: string;
}

const channel = new BroadcastChannel('stopwright');

export function tellOtherTabs(job: string, head: string): void {
  channel.postMessage({ job, head, tab: thisTab } satisfies Said);
}

export function hearOtherTabs(listen: (job: string, head: string) => void): void {
  channel.addEventListener('message', ({ data }: MessageEvent<Said>) => {
    if (data.tab !== thisTab) listen(data.job, data.head);
  });
}
