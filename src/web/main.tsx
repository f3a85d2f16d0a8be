/** Starts the app: the calculation and the first job load while the page is being built. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import { loadTheRest } from './page/later.tsx';
import { hearOtherTabs, holdTab } from './keeping/tab.ts';
import { api } from './keeping/api.ts';
import { desk, put } from './desk/desk.ts';
import { comeBack, leavePage, openFirst } from './desk/come-and-go.ts';
import { flush, lookAtHeads } from './desk/open-job.ts';
import { findRemediesWhenQuiet } from './desk/remedies.ts';
import { listenForKeys } from './desk/keys.ts';
import { reckoner } from './reckoning/reckoner.ts';
import { followTheme } from './show/theme.ts';
import './look/inks.css';
import './look/controls.css';
import './look/title-strip.css';
import './look/page.css';
import './look/thumb-bar.css';
import './look/answers.css';
import './look/drawings.css';
import './look/findings.css';
import './look/survey.css';
import './look/dialogs.css';
import './look/print.css';

followTheme();
reckoner.begin();
void api.ready().catch(() => undefined);
void holdTab()
  .then(openFirst)
  .then(() => Promise.all([reckoner.warm(), loadTheRest()]));
findRemediesWhenQuiet();
listenForKeys();

window.addEventListener('pagehide', leavePage);
window.addEventListener('pageshow', comeBack);
document.addEventListener('visibilitychange', () => {
  if (document.visibilityState === 'hidden') void flush();
  else void lookAtHeads();
});
hearOtherTabs((job, head) => {
  if (desk().job?.id === job && desk().job?.head !== head) void lookAtHeads();
});
window.addEventListener('unhandledrejection', ({ reason }) => {
  const words = reason instanceof Error ? reason.message : String(reason);
  put({ notice: { words: `Something went wrong on this page: ${words}. What was kept is safe; reload the page.` } });
});

createRoot(document.querySelector('#sheet')!).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
