// Finds the browser that the browser tests drive; on a Debian machine where we may, installs it.
import { existsSync } from 'node:fs';
import { run } from './child.mjs';

const APT = ['-o', 'DPkg::Lock::Timeout=300'];

/** The path of a Chromium; ends the process with a sentence when there is none and none can be installed. */
export async function chromium() {
  const named = process.env.CHROMIUM;
  if (named !== undefined) {
    if (existsSync(named)) return named;
    stop(`CHROMIUM names ${named}, and there is no such file.`);
  }
  const usual = '/usr/bin/chromium';
  if (existsSync(usual)) return usual;
  if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) {
    stop(
      'The browser tests need Chromium. Install it (on Debian, as root: apt-get install chromium), or name it in CHROMIUM.',
    );
  }
  console.log('Installing Chromium …');
  // Patience: an installer that is cut off leaves the machine's packages half done.
  const options = { quiet: true, env: { DEBIAN_FRONTEND: 'noninteractive' }, patience: 300_000 };
  await run('apt-get', [...APT, 'update'], options);
  const { code, text } = await run(
    'apt-get',
    [...APT, 'install', '-y', '--no-install-recommends', 'chromium'],
    options,
  );
  if (code !== 0 || !existsSync(usual)) stop(`${text}\nChromium could not be installed.`);
  return usual;
}

/**
 * @param {string} sentence
 * @returns {never}
 */
function stop(sentence) {
  console.error(`${sentence}\nWithout a browser: npm test -- --no-browser`);
  process.exit(1);
}
