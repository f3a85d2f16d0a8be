/** The solenoid as motion sees it, and the two sources that it may come from. */
export type { Magnet, MagnetState } from './magnet-form.ts';
export { magnetOfReadings, type ReadingsMagnetOptions } from './magnet-of-readings.ts';
export { magnetOfSurface } from './magnet-of-surface.ts';
