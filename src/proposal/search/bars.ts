/** The parts of a layout as straight bars, as thick as they are drawn, to be held against what stands in the way. */
import type { Rig } from '../../assessment/rig.ts';
import type { Linkage, Pose } from '../../physics/linkage.ts';
import type { Bar } from './keep-out.ts';

/** Solenoid and plunger, the plunger at its outer stop. */
export function bodyOf({ guide, stroke }: Rig, { homeX, homeY, directionX: ux, directionY: uy }: Linkage): Bar[] {
  const bar = (part: string, from: number, to: number, half: number): Bar => ({
    part,
    ax: homeX + from * ux,
    ay: homeY + from * uy,
    bx: homeX + to * ux,
    by: homeY + to * uy,
    half,
  });
  // A pull plunger's guide lies ahead of the pin, a push rod's behind it. The ends of a bar are round: they take half.
  const half = 1.15 * guide.diameter;
  const depth = Math.max(2 * half, guide.lengthAtHome + 0.35 * guide.diameter);
  const [mouth, way] = guide.action === 'pull' ? [guide.overhang, 1] : [-(guide.overhang + stroke), -1];
  return [
    bar('the solenoid', mouth + way * half, mouth + way * (depth - half), half),
    bar('the plunger', mouth, guide.action === 'pull' ? -stroke : 0, 0.34 * guide.diameter),
  ];
}

/** Arm, link and springs at one gap. */
export function barsOf(rig: Rig, linkage: Linkage, shaftAngle: number, armAngle: number, pose: Pose): Bar[] {
  const pin = linkage.kind === 'slot' ? 0.008 : Math.max(0.006, 2 * linkage.pinRubRadius);
  const ax = pose.radius * Math.cos(armAngle);
  const ay = pose.radius * Math.sin(armAngle);
  const arm: Bar = { part: 'the arm', ax: 0, ay: 0, bx: ax, by: ay, half: 1.1 * pin };
  const link: Bar[] =
    linkage.kind === 'link' || linkage.kind === 'chain'
      ? [
          {
            part: `the ${linkage.kind}`,
            ax,
            ay,
            bx: ax + linkage.length * pose.linkX,
            by: ay + linkage.length * pose.linkY,
            half: pin / 2,
          },
        ]
      : [];
  const springs = rig.springs.flatMap(({ lever, helical, name }): Bar[] => {
    if (lever === null) return [];
    const direction = shaftAngle + lever.angle;
    return [
      {
        part: name === '' ? 'the return spring' : `"${name}"`,
        ax: lever.anchorX,
        ay: lever.anchorY,
        bx: lever.radius * Math.cos(direction),
        by: lever.radius * Math.sin(direction),
        half: helical === null ? 0.005 : helical.meanCoilDiameter / 2,
      },
    ];
  });
  return [arm, ...link, ...springs];
}
