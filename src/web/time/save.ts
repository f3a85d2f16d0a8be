/** A run as a file on the reader's machine. */
import { desk } from '../desk/desk.ts';
import { timer } from './timer.ts';

export async function saveRun(name: string): Promise<void> {
  const text = await timer.csv(name);
  if (text === null) return;
  // With a mark of its encoding, so that a spreadsheet reads the degree sign.
  const address = URL.createObjectURL(new Blob(['\u{FEFF}', text], { type: 'text/csv;charset=utf-8' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = `${fileName(desk().document?.name ?? 'job')}-${name}.csv`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** What every file system takes. */
function fileName(words: string): string {
  const plain = words.replaceAll(/[^\p{L}\p{N}]+/gu, '-').replaceAll(/^-|-$/g, '');
  return plain === '' ? 'job' : plain.slice(0, 60).toLowerCase();
}
