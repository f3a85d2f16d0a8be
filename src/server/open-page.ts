/** Opens the page in the person's browser where there is a screen. When that fails, the printed address is enough. */
import { spawn } from 'node:child_process';

export function openPage(address: string): void {
  const command = pageCommand(process.platform, process.env);
  if (command === undefined) return;
  const [program, ...words] = command;
  const child = spawn(program, [...words, address], { stdio: 'ignore', detached: true });
  child.on('error', () => {});
  child.unref();
}

/** The program that shows a page, with its first words; undefined where there is no screen. */
export function pageCommand(
  platform: NodeJS.Platform,
  environment: NodeJS.ProcessEnv,
): [string, ...string[]] | undefined {
  if (platform === 'darwin') return ['open'];
  if (platform === 'win32') return ['rundll32', 'url.dll,FileProtocolHandler'];
  const hasScreen = environment['DISPLAY'] !== undefined || environment['WAYLAND_DISPLAY'] !== undefined;
  return hasScreen ? ['xdg-open'] : undefined;
}
