/**
 * Search of all combinations of choices for the greatest value: the best of each kind, the best kinds kept.
 *
 * Combinations are numbered in mixed radix, the last axis changing fastest, and looked at in that order. A `bound` that
 * is cheap and never below the value lets a combination go unreckoned, and, asked with the first choices only, a whole
 * row of them. Both are told the value that has to be beaten and may stop as soon as they know that it cannot be. A
 * maximin search has `leastOf` as its value.
 *
 * Nothing is sampled and nothing is random: the result is that of reckoning everything, whatever the blocks and whoever
 * did them (`joinSearches`); only the counts of what was cut off depend on the blocks. Of equal values the lower number
 * stays. A bound that is below the value of some combination loses that one.
 *
 * D. E. Knuth, The Art of Computer Programming, vol. 4A (2011), 7.2.1.1, mixed radix; A. H. Land, A. G. Doig, An
 * automatic method of solving discrete programming problems, Econometrica 28 (1960) 497-520, bounds that cut off whole
 * branches.
 */
export interface SearchProblem {
  /** Number of choices on each axis. */
  readonly radices: readonly number[];
  /**
   * Upper bound of the value of every combination that begins with the first `fixed` of `choices`, the others not to be
   * read; Infinity where nothing can be said yet. Anything not above `toBeat` says that none of them matters.
   */
  readonly bound?: (choices: readonly number[], fixed: number, toBeat: number) => number;
  /** Value of a combination; anything not above `toBeat`, or -Infinity, when it cannot beat that. NaN is refused. */
  readonly value: (choices: readonly number[], toBeat: number) => number;
  /** What makes two combinations of one kind, of which only the better is kept. Default: each is a kind of its own. */
  readonly kind?: (choices: readonly number[]) => string;
  /** Kinds to keep. */
  readonly keep: number;
}

export interface Kept {
  readonly number: number;
  readonly choices: readonly number[];
  readonly value: number;
  readonly kind: string;
}

/** Plain data: a search can be put down and taken up again, or sent to a worker. */
export interface SearchState {
  /** Combinations looked at are those from `from` to before `next`. */
  readonly from: number;
  readonly next: number;
  readonly until: number;
  /** Only values above this are looked for: what others have found already. Left out: any. */
  readonly floor?: number;
  /** Best first. */
  readonly kept: readonly Kept[];
  /**
   * Combinations cut off in rows or alone by the bound, and combinations whose value was asked for: together those
   * looked at.
   */
  readonly cutOff: number;
  readonly valued: number;
}

/**
 * Number of combinations. @throws RangeError when a radix is no whole number above zero, or there are more than 2⁵³
 * combinations
 */
export function combinations(radices: readonly number[]): number {
  const total = radices.reduce((product, radix) => {
    if (!(Number.isInteger(radix) && radix > 0)) throw new RangeError(`an axis has ${radix} choices`);
    return product * radix;
  }, 1);
  if (total > Number.MAX_SAFE_INTEGER) throw new RangeError(`${total} combinations cannot be numbered`);
  return total;
}

/** Choices of combination `number`. */
export function combination(radices: readonly number[], number: number): number[] {
  const choices = radices.map(() => 0);
  let rest = number;
  for (let axis = radices.length - 1; axis >= 0; axis--) {
    choices[axis] = rest % radices[axis];
    rest = Math.floor(rest / radices[axis]);
  }
  return choices;
}

/**
 * A search that has not begun, of all combinations or of those from `from` to before `until`, for values above `floor`.
 * With the last of `keep` kinds found among lower numbers as its floor, nothing is lost that all of them together keep.
 */
export function beginSearch(
  problem: SearchProblem,
  from = 0,
  until = combinations(problem.radices),
  floor = -Infinity,
): SearchState {
  const total = combinations(problem.radices);
  if (!(Number.isInteger(from) && Number.isInteger(until) && from >= 0 && from <= until && until <= total)) {
    throw new RangeError(`combinations are numbered 0 to ${total}, not ${from} to ${until}`);
  }
  const state: SearchState = { from, next: from, until, kept: [], cutOff: 0, valued: 0 };
  return floor === -Infinity ? state : { ...state, floor };
}

/**
 * Goes on until about `block` more values have been asked for, or the end is reached; `next === until` says which.
 * Bounds count a sixteenth, so that a block that cuts off everything ends too.
 *
 * @throws RangeError when a value or a bound is NaN
 */
export function searchOn(problem: SearchProblem, state: SearchState, block: number): SearchState {
  const { radices, bound, value, kind, keep } = problem;
  const axes = radices.length;
  /** Combinations in a row whose first `fixed` choices agree. */
  const rowOf = Array.from({ length: axes + 1 }, () => 1);
  for (let axis = axes - 1; axis >= 0; axis--) rowOf[axis] = rowOf[axis + 1] * radices[axis];
  const kept = [...state.kept];
  let { next, cutOff, valued } = state;
  const { floor = -Infinity } = state;
  const lastKept = () => (kept.length < keep ? floor : Math.max(floor, kept.at(-1)?.value ?? Infinity));
  let toBeat = lastKept();
  /** First axis whose choice is new since bounds were last asked. */
  let fresh = 0;
  let work = 0;
  const choices = combination(radices, next);
  const skip = (fixed: number): void => {
    const end = Math.min(state.until, (Math.floor(next / rowOf[fixed]) + 1) * rowOf[fixed]);
    fresh = advance(choices, radices, fixed);
    next = end;
  };
  while (next < state.until && work < block) {
    let cut = -1;
    if (bound !== undefined) {
      for (let fixed = fresh + 1; fixed <= axes && cut < 0; fixed++) {
        work += 1 / 16;
        if (!(number(bound(choices, fixed, toBeat)) > toBeat)) cut = fixed;
      }
    }
    const here = next;
    if (cut >= 0) {
      skip(cut);
      cutOff += next - here;
      continue;
    }
    valued++;
    work++;
    const found = number(value(choices, toBeat));
    if (found > toBeat) {
      const at = [...choices];
      insert(kept, { number: here, choices: at, value: found, kind: kind?.(at) ?? at.join(' ') }, keep);
      toBeat = lastKept();
    }
    skip(axes);
  }
  return { ...state, next, kept, cutOff, valued };
}

/**
 * Searches of different ranges of one problem as one. Its range reaches from the first to the last of theirs, and it is
 * done when all of them are; a joined search that is not done cannot be gone on with, only its parts.
 */
export function joinSearches(searches: readonly SearchState[], keep: number): SearchState {
  const kept: Kept[] = [];
  for (const one of searches.flatMap((search) => search.kept)) insert(kept, one, keep);
  const sum = (count: (search: SearchState) => number) => searches.reduce((total, search) => total + count(search), 0);
  const from = Math.min(...searches.map((search) => search.from));
  return {
    from,
    next: from + sum((search) => search.next - search.from),
    until: from + sum((search) => search.until - search.from),
    kept,
    cutOff: sum((search) => search.cutOff),
    valued: sum((search) => search.valued),
  };
}

/**
 * Least of some margins, in the order given; stops at the first that is not above `toBeat`. Put the cheap and the tight
 * ones first.
 */
export function leastOf(margins: readonly (() => number)[], toBeat = -Infinity): number {
  let least = Infinity;
  for (const margin of margins) {
    least = Math.min(least, margin());
    if (!(least > toBeat)) break;
  }
  return least;
}

/** Next combination after all that share the first `fixed` choices; the first axis that changed, 0 after the last. */
function advance(choices: number[], radices: readonly number[], fixed: number): number {
  choices.fill(0, fixed);
  for (let axis = fixed - 1; axis >= 0; axis--) {
    choices[axis]++;
    if (choices[axis] < radices[axis]) return axis;
    choices[axis] = 0;
  }
  return 0;
}

function better(a: Kept, b: Kept): boolean {
  return a.value > b.value || (a.value === b.value && a.number < b.number);
}

/** Keeps the list sorted, one of each kind, `keep` at most. */
function insert(kept: Kept[], one: Kept, keep: number): void {
  const same = kept.findIndex(({ kind }) => kind === one.kind);
  if (same >= 0) {
    if (!better(one, kept[same])) return;
    kept.splice(same, 1);
  }
  const place = kept.findIndex((other) => better(one, other));
  kept.splice(place < 0 ? kept.length : place, 0, one);
  if (kept.length > keep) kept.length = keep;
}

function number(value: number): number {
  if (Number.isNaN(value)) throw new RangeError('a combination has a value or a bound that is not a number');
  return value;
}
