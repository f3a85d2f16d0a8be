import { DomainError } from '../../domain-error.ts';
import type { Point } from '../../magnetics/outline.ts';

/**
 * A plunger solenoid as calipers give it, metres and radians. Height 0 is the outer face of the bottom plate; the
 * plunger enters through the top plate at height `can.length`.
 */
export interface SolenoidDimensions {
  readonly can: { readonly outerRadius: number; readonly wall: number; readonly length: number };
  readonly bottomPlate: { readonly thickness: number };
  readonly topPlate: { readonly thickness: number };
  readonly plunger: {
    readonly radius: number;
    /** From the shoulder (flat seat: the pole face) to the tail. */
    readonly length: number;
    /** A hole along the axis, from the tip or from the tail; as deep as the plunger is long: right through. */
    readonly bore?: { readonly radius: number; readonly depth: number; readonly from: 'tip' | 'tail' };
  };
  /** Between plunger and top plate, magnetically: a brass tube there counts as clearance. */
  readonly radialClearance: number;
  readonly seat: {
    readonly radius: number;
    /** Height of the face, or of the rim of the recess when the seat is conical. */
    readonly faceHeight: number;
    /** A recess that the plunger's cone fits: included angle, and radius of the flat at its floor and at the tip. */
    readonly cone?: { readonly includedAngle: number; readonly tipRadius: number };
  };
  readonly coil: {
    readonly innerRadius: number;
    readonly outerRadius: number;
    readonly bottom: number;
    readonly top: number;
  };
  /** Non-magnetic guide tube: takes room, carries no flux of its own. */
  readonly guideTube?: { readonly innerRadius: number; readonly outerRadius: number };
  /** Thickness of a non-magnetic shim left between the faces at home, measured along the axis. */
  readonly residualShim?: number;
}

/** Depth of the conical recess below its rim, 0 for a flat seat. */
export function recessDepth(solenoid: SolenoidDimensions): number {
  const { cone } = solenoid.seat;
  return cone === undefined ? 0 : (solenoid.plunger.radius - cone.tipRadius) / Math.tan(cone.includedAngle / 2);
}

/**
 * Refuses what cannot be built, naming the dimension.
 *
 * @throws DomainError SW-M030 a dimension is not finite and above zero
 * @throws DomainError SW-M031 parts that do not fit each other, with both sizes
 */
export function checkDimensions(solenoid: SolenoidDimensions): void {
  const { can, bottomPlate, topPlate, plunger, radialClearance, seat, coil, guideTube, residualShim } = solenoid;
  const positive: [string, number][] = [
    ['can outer radius', can.outerRadius],
    ['can wall', can.wall],
    ['can length', can.length],
    ['bottom plate thickness', bottomPlate.thickness],
    ['top plate thickness', topPlate.thickness],
    ['plunger radius', plunger.radius],
    ['plunger length', plunger.length],
    ['radial clearance', radialClearance],
    ['seat radius', seat.radius],
    ['seat face height', seat.faceHeight],
    ['coil inner radius', coil.innerRadius],
    ['coil outer radius', coil.outerRadius],
    ['coil bottom', coil.bottom],
    ['coil top', coil.top],
  ];
  if (plunger.bore)
    positive.push(['plunger bore radius', plunger.bore.radius], ['plunger bore depth', plunger.bore.depth]);
  if (seat.cone)
    positive.push(['cone included angle', seat.cone.includedAngle], ['cone tip radius', seat.cone.tipRadius]);
  if (guideTube)
    positive.push(
      ['guide tube inner radius', guideTube.innerRadius],
      ['guide tube outer radius', guideTube.outerRadius],
    );
  for (const [name, value] of positive)
    if (!(value > 0) || value === Infinity)
      throw new DomainError('SW-M030', `${name} must be finite and above zero, not ${value}`);
  if (residualShim !== undefined && !(residualShim >= 0 && residualShim < Infinity))
    throw new DomainError('SW-M030', `residual shim must be zero or more, not ${residualShim}`);

  const fits = (smallName: string, small: number, largeName: string, large: number): void => {
    if (!(small < large))
      throw new DomainError('SW-M031', `${smallName} (${small} m) must be less than ${largeName} (${large} m)`);
  };
  // Parts that may touch: rounding of the readings must not refuse them.
  const within = (smallName: string, small: number, largeName: string, large: number): void => {
    if (!(small <= large + 1e-9))
      throw new DomainError('SW-M031', `${smallName} (${small} m) must not exceed ${largeName} (${large} m)`);
  };
  const canBore = can.outerRadius - can.wall;
  const plateBore = plunger.radius + radialClearance;
  fits('can wall', can.wall, 'can outer radius', can.outerRadius);
  fits('both plates together', bottomPlate.thickness + topPlate.thickness, 'can length', can.length);
  fits('bore of the top plate (plunger radius + clearance)', plateBore, 'inner radius of the can', canBore);
  fits('coil inner radius', coil.innerRadius, 'coil outer radius', coil.outerRadius);
  fits('coil bottom', coil.bottom, 'coil top', coil.top);
  within('coil outer radius', coil.outerRadius, 'inner radius of the can', canBore);
  fits('plunger radius', plunger.radius, 'coil inner radius', coil.innerRadius);
  within('seat radius', seat.radius, 'coil inner radius', coil.innerRadius);
  within('bottom plate thickness', bottomPlate.thickness, 'coil bottom', coil.bottom);
  within('coil top', coil.top, 'underside of the top plate', can.length - topPlate.thickness);
  fits('bottom plate thickness', bottomPlate.thickness, 'seat face height', seat.faceHeight);
  fits('seat face height', seat.faceHeight, 'underside of the top plate', can.length - topPlate.thickness);
  if (seat.cone) {
    const { includedAngle, tipRadius } = seat.cone;
    fits('cone included angle', includedAngle, 'a straight angle', Math.PI);
    fits('cone tip radius', tipRadius, 'plunger radius', plunger.radius);
    within('plunger radius', plunger.radius, 'seat radius (the recess has its rim there)', seat.radius);
    fits(
      'recess of the seat',
      recessDepth(solenoid),
      'height of the seat above the bottom plate',
      seat.faceHeight - bottomPlate.thickness,
    );
  }
  if (plunger.bore) {
    fits(
      'plunger bore radius',
      plunger.bore.radius,
      seat.cone ? 'cone tip radius' : 'plunger radius',
      seat.cone?.tipRadius ?? plunger.radius,
    );
  }
  if (guideTube) {
    fits('guide tube inner radius', guideTube.innerRadius, 'guide tube outer radius', guideTube.outerRadius);
    within('plunger radius', plunger.radius, 'guide tube inner radius', guideTube.innerRadius);
    within('guide tube outer radius', guideTube.outerRadius, 'coil inner radius', coil.innerRadius);
  }
}

/** Outlines of the parts with the plunger at an axial distance of `magneticGap` from full contact, metres. */
export function solenoidOutlines(
  solenoid: SolenoidDimensions,
  magneticGap: number,
): Record<'can' | 'topPlate' | 'bottomPlate' | 'seat' | 'coil' | 'plunger', Point[]> {
  const { can, bottomPlate, topPlate, plunger, seat, coil } = solenoid;
  const canBore = can.outerRadius - can.wall;
  const plateBore = plunger.radius + solenoid.radialClearance;
  const underside = can.length - topPlate.thickness;
  return {
    can: ring(canBore, can.outerRadius, 0, can.length),
    topPlate: ring(plateBore, canBore, underside, can.length),
    bottomPlate: ring(0, canBore, 0, bottomPlate.thickness),
    seat: seatOutline(solenoid),
    coil: ring(coil.innerRadius, coil.outerRadius, coil.bottom, coil.top),
    plunger: plungerOutline(solenoid, seat.faceHeight + magneticGap),
  };
}

function ring(inner: number, outer: number, bottom: number, top: number): Point[] {
  return [
    [inner, bottom],
    [outer, bottom],
    [outer, top],
    [inner, top],
  ];
}

function seatOutline(solenoid: SolenoidDimensions): Point[] {
  const { radius, faceHeight, cone } = solenoid.seat;
  const base = solenoid.bottomPlate.thickness;
  if (cone === undefined) return ring(0, radius, base, faceHeight);
  const floor = faceHeight - recessDepth(solenoid);
  const rim = solenoid.plunger.radius;
  const outside: Point[] = [
    [0, base],
    [radius, base],
    [radius, faceHeight],
  ];
  if (radius - rim > 1e-9) outside.push([rim, faceHeight]);
  return [...outside, [cone.tipRadius, floor], [0, floor]];
}

function plungerOutline(solenoid: SolenoidDimensions, shoulder: number): Point[] {
  const { radius, length, bore } = solenoid.plunger;
  const tail = shoulder + length;
  const tip = shoulder - recessDepth(solenoid);
  const skin: Point[] =
    solenoid.seat.cone === undefined
      ? [[radius, shoulder]]
      : [
          [solenoid.seat.cone.tipRadius, tip],
          [radius, shoulder],
        ];
  skin.push([radius, tail]);
  if (bore === undefined) return [[0, tip], ...skin, [0, tail]];
  if (bore.depth >= tail - tip - 1e-9) return [[bore.radius, tip], ...skin, [bore.radius, tail]];
  if (bore.from === 'tip')
    return [[0, tip + bore.depth], [bore.radius, tip + bore.depth], [bore.radius, tip], ...skin, [0, tail]];
  return [[0, tip], ...skin, [bore.radius, tail], [bore.radius, tail - bore.depth], [0, tail - bore.depth]];
}
