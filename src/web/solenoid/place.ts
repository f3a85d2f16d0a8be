/** Where the solenoid's page is: a place of the address, so that "back" leaves it and a reload comes back to it. */
import { useSyncExternalStore } from 'react';

export const SOLENOID_PLACE = '#solenoid';

export function useIsSolenoidOpen(): boolean {
  return useSyncExternalStore(
    (changed) => {
      window.addEventListener('hashchange', changed);
      return () => window.removeEventListener('hashchange', changed);
    },
    () => location.hash === SOLENOID_PLACE,
  );
}

export function leaveSolenoid(): void {
  location.hash = '';
}
