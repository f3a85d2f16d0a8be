/**
 * Version 2 knew a hand cable by what its handle asked, and a cylinder by its bore. Version 3 asks what both are made of,
 * and what there is of compressed air. What was read is kept; what was never asked is "not measured".
 */
import { NOT_MEASURED } from '../quantity-text.ts';
import type { Migration } from './migrate.ts';
import { isPart, type Part } from './part.ts';

export const cableAndAir: Migration = (document) => {
  const { survey, means } = document;
  return {
    ...document,
    survey: isPart(survey) ? { ...survey, air: airOf(means) } : survey,
    means: isPart(means) ? meansOf(means) : means,
  };
};

/** The lowest pressure was a field of the cylinder. */
function airOf(means: unknown): unknown {
  if (!isPart(means) || means['kind'] !== 'air cylinder') return NOT_MEASURED;
  return { low: means['pressure'], high: NOT_MEASURED, reservoir: NOT_MEASURED };
}

function meansOf(means: Part): Part {
  if (means['kind'] === 'hand cable') return handCableOf(means);
  return means['kind'] === 'air cylinder' ? airCylinderOf(means) : means;
}

function handCableOf({
  kind,
  handlePull,
  handlePullAllowed,
  handleTravel,
  handleTravelAvailable,
  ...more
}: Part): Part {
  const allowed = handlePullAllowed === undefined ? {} : { allowed: handlePullAllowed };
  const travel = handleTravel === NOT_MEASURED ? {} : { travel: handleTravel };
  const isRead = handlePull !== NOT_MEASURED || handleTravel !== NOT_MEASURED;
  return {
    ...more,
    kind,
    handle: { kind: NOT_MEASURED, posture: NOT_MEASURED, travel: handleTravelAvailable, ...allowed },
    route: [],
    core: { construction: NOT_MEASURED, diameter: NOT_MEASURED, moves: NOT_MEASURED },
    conduit: { bore: NOT_MEASURED, lining: NOT_MEASURED },
    towardsStop: NOT_MEASURED,
    ...(isRead ? { readings: { free: NOT_MEASURED, connected: handlePull, ...travel } } : {}),
    leverEnd: {
      conduitEnd: { x: NOT_MEASURED, y: NOT_MEASURED },
      radius: NOT_MEASURED,
      angle: NOT_MEASURED,
      fitting: NOT_MEASURED,
      slack: NOT_MEASURED,
    },
    secondStation: NOT_MEASURED,
  };
}

function airCylinderOf({ kind, bore }: Part): Part {
  const unread = ['works', 'action', 'rod', 'stroke', 'guideLength', 'overhang', 'rodClearance', 'valve', 'exhaust'];
  return {
    kind,
    bore,
    ...Object.fromEntries(unread.map((name) => [name, NOT_MEASURED])),
    returns: NOT_MEASURED,
    line: { bore: NOT_MEASURED, length: NOT_MEASURED },
  };
}
