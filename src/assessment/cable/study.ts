/** The behaviour of a hand cable on its lever, for drawings, comparisons and whatever else stands on the same lever. */
export type * from './data.ts';
