/** The solenoid as motion sees it, and the two sources that it may come from. */
export type { Magnet, MagnetState } from './magnet-form.ts';
export { magnetOfSurface } from './magnet-of-surface.ts';
export { magnetOfTable, relativeTurns, type TableMagnetOptions } from './magnet-of-table.ts';
