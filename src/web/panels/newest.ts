/**
 * Runs `work` now, or once more when it is done, however often it is asked for in between: one at a time, and the newest wish
 * alone. `failed` is told in words what stopped one.
 */
export function newestOnly(work: () => Promise<void>, failed: (trouble: string) => void): () => void {
  let isBusy = false;
  let isWished = false;

  async function follow(): Promise<void> {
    isBusy = true;
    while (isWished) {
      isWished = false;
      try {
        await work();
      } catch (error) {
        failed(error instanceof Error ? error.message : String(error));
      }
    }
    isBusy = false;
  }

  return () => {
    isWished = true;
    if (!isBusy) void follow();
  };
}
