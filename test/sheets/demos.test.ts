/** The demonstrations, assessed and drawn: whatever the numbers are, the sheets come out clean. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import test from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import type { Assessment } from '../../src/assessment/finding.ts';
import { mechanismPicture } from '../../src/assessment/mechanism.ts';
import type { MechanismPicture } from '../../src/assessment/picture.ts';
import type { Job } from '../../src/job/schema.ts';
import type { Drawing } from '../../src/sheets/drawing.ts';
import { drawMechanism } from '../../src/sheets/mechanism.ts';
import { drawPullAgainstLoad } from '../../src/sheets/pull-against-load.ts';
import { drawShaftAngle } from '../../src/sheets/shaft-angle.ts';
import { svg } from '../../src/sheets/svg.ts';
import { drawVerdictSheets, VERDICT_PICTURES } from '../../src/sheets/verdict-sheet.ts';
import { imperialUnits, metricUnits } from '../../src/units/display.ts';
import { assertDrawn } from './golden.ts';
import { textsOf, touchingTexts } from './touching.ts';

const folder = new URL('../../src/job/demos/', import.meta.url);
const demos = readdirSync(folder)
  .filter((file) => file.endsWith('.json'))
  .map((file) => {
    const job = JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as Job;
    return { name: file.replace('.json', ''), job, assessment: assess(job) };
  });

const fields = {
  owner: 'Volunteer workshop',
  job: 'Job',
  digest: '3f9a 20c1 77be',
  revision: '4',
  date: '2025-03-01',
  scale: '1:2',
  drawnBy: 'Anna Tesk',
  checkedBy: '',
};

function sheetsOf(picture: MechanismPicture, assessment: Assessment, name = assessment.job): Drawing[] {
  return drawVerdictSheets({
    assessment: { ...assessment, job: name },
    mechanism: drawMechanism(picture, { ...VERDICT_PICTURES.mechanism, scales: 'standard' }),
    load: drawPullAgainstLoad(chartOf(picture, assessment, 5), VERDICT_PICTURES.load),
    fields: { ...fields, job: name },
  });
}

const chartOf = ({ endSwitchGap }: MechanismPicture, { sweep, travel }: Assessment, gap_mm: number) => ({
  sweep,
  travel,
  endSwitchGap_mm: endSwitchGap === null ? null : endSwitchGap * 1000,
  gap_mm,
});

test('at every gap, in both units, on both sizes: no text covers another, every attribute is a number', () => {
  for (const { name, job, assessment } of demos) {
    for (let gap_mm = 0; gap_mm <= 40; gap_mm += 4) {
      const picture = mechanismPicture(job, gap_mm / 1000);
      for (const units of [metricUnits, imperialUnits]) {
        for (const size of [{}, { width: 120, height: 110 }]) {
          const drawings = [
            drawMechanism(picture, { ...size, units }),
            drawPullAgainstLoad(chartOf(picture, assessment, gap_mm), { ...size, units }),
            drawShaftAngle(
              { sweep: assessment.sweep, shaftAngles: picture.shaftAngles, gap_mm },
              { ...size, height: 60, units },
            ),
          ];
          for (const drawing of drawings) {
            assert.deepEqual(touchingTexts(drawing), [], `${name}, ${drawing.title}, ${gap_mm} mm`);
            assert.doesNotMatch(svg(drawing), /NaN|Infinity|undefined|null/);
          }
        }
      }
    }
  }
});

test('golden: the railcar half way, geometry alone, so that only a change of form or survey moves it', () => {
  const railcar = demos.find(({ name }) => name === 'railcar');
  assert.ok(railcar);
  const picture = mechanismPicture(railcar.job, 0.016);
  const springs = picture.springs.map((spring) => ({ ...spring, force: null }));
  assertDrawn('railcar', svg(drawMechanism({ ...picture, forces: null, springs })));
});

test('the sheets of a verdict carry every finding once, the caution whole, and one title block each', () => {
  for (const { name, job, assessment } of demos) {
    const sheets = sheetsOf(mechanismPicture(job, 0.005), assessment);
    const parts = sheets.flatMap((sheet) => sheet.parts.map((part) => part.name));
    for (const { id } of assessment.findings) {
      assert.equal(parts.filter((part) => part === `verdict-${id}`).length, 1, `${name}: ${id}`);
    }
    for (const [i, sheet] of sheets.entries()) {
      assert.deepEqual(touchingTexts(sheet), [], name);
      const words = textsOf(sheet).map(({ text }) => text);
      assert.ok(words.join(' ').includes(assessment.caution), `${name}: caution on sheet ${i + 1}`);
      assert.ok(words.includes(`${i + 1} of ${sheets.length}`));
      assert.ok(words.includes('3f9a 20c1 77be'));
      const names = sheet.parts.map((part) => part.name);
      assert.equal(new Set(names).size, names.length, 'part names are unique');
    }
    for (const { verdict, words } of assessment.answers) {
      assert.ok(sheets[0] && textsOf(sheets[0]).some(({ text }) => text === `${words} ${verdict}`));
    }
  }
});

test('a name too long for its field is cut on the sheet, whole in the title, and never markup', () => {
  const railcar = demos.find(({ name }) => name === 'railcar');
  assert.ok(railcar);
  const name = `<b>${'wide '.repeat(40)}</b>`;
  const [sheet] = sheetsOf(mechanismPicture(railcar.job, 0.005), railcar.assessment, name);
  assert.ok(sheet);
  assert.deepEqual(touchingTexts(sheet), []);
  assert.ok(sheet.title.includes(name));
  assert.doesNotMatch(svg(sheet), /<b>/);
});
