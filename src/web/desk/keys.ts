/** Keys that work everywhere on the page. */
import { redo, undo } from './proposals.ts';

export function listenForKeys(): void {
  window.addEventListener('keydown', (event) => {
    if (event.altKey || !(event.ctrlKey || event.metaKey)) return;
    const key = event.key.toLowerCase();
    const isUndo = key === 'z' && !event.shiftKey;
    const isRedo = (key === 'z' && event.shiftKey) || key === 'y';
    if (!isUndo && !isRedo) return;
    // In a text that holds letters not taken over yet, the browser's own undo is what a person expects.
    if (event.target instanceof HTMLElement && event.target.dataset['draft'] === 'yes') return;
    event.preventDefault();
    void (isUndo ? undo() : redo());
  });
}
