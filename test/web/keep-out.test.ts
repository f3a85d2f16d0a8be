import assert from 'node:assert/strict';
import test from 'node:test';
import { mechanismPicture } from '../../src/assessment/mechanism.ts';
import { demoJobs } from '../../src/job/demos.ts';
import { readDocument } from '../../src/job/read.ts';
import { drawMechanism } from '../../src/sheets/mechanism.ts';
import { dragged } from '../../src/web/drawings/dragging.ts';

function railcarWith(keepOut: readonly unknown[]) {
  const railcar = demoJobs.find(({ name }) => name === 'railcar');
  const reading = readDocument({ ...railcar?.document, space: { keepOut } });
  assert.ok(reading.ok, 'the document can be read');
  return reading.job;
}

test('handles of a shape lie on it and, dragged, change its own numbers; one that was not measured is not drawn', () => {
  const job = railcarWith([
    { shape: 'circle', name: 'Hose', centre: { x: 'not measured', y: '10 mm' }, radius: '5 mm' },
    { shape: 'circle', name: 'Filter', centre: { x: '20 mm', y: '60 mm' }, radius: '15 mm' },
    { shape: 'rectangle', name: 'Beam', from: { x: '30 mm', y: '-10 mm' }, to: { x: '60 mm', y: '-30 mm' } },
  ]);
  const drawing = drawMechanism(mechanismPicture(job, 0.01));
  const drawn = drawing.parts.map(({ name }) => name).filter((name) => /^keep-out-\d+$/.test(name));
  assert.deepEqual(drawn, ['keep-out-2', 'keep-out-3']);
  const drag = (name: string, right: number, up: number) => {
    const handle = drawing.handles.find((one) => one.name === name);
    assert.ok(handle !== undefined, `${name} can be taken hold of`);
    const { scale } = drawing.frame;
    const to = { x: handle.x + right * scale, y: handle.y + up * scale };
    return dragged(job, handle, drawing.frame, to).map(({ path, to: text }) => [path, text]);
  };
  assert.deepEqual(drag('edge of Filter', 4, 0), [['space.keepOut[1].radius', '19 mm']]);
  assert.deepEqual(drag('centre of Filter', 1, -2), [
    ['space.keepOut[1].centre.x', '21 mm'],
    ['space.keepOut[1].centre.y', '58 mm'],
  ]);
  assert.deepEqual(drag('far corner of Beam', 5, 5), [
    ['space.keepOut[2].to.x', '65 mm'],
    ['space.keepOut[2].to.y', '-25 mm'],
  ]);
});
