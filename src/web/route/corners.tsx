/** The corners as a list, with what each bend costs, and the fields of the one that is chosen. */
import { useEffect, useState } from 'react';
import { NOT_MEASURED } from '../../job/quantity-text.ts';
import type { HandCable } from '../../job/schema.ts';
import { useDesk } from '../desk/desk.ts';
import { propose } from '../desk/proposals.ts';
import { Field } from '../fields/field.tsx';
import { HolderOfFields } from '../fields/holder.ts';
import type { Field as FieldForm, Form } from '../reckoning/form.ts';
import { reckoner } from '../reckoning/reckoner.ts';
import { useUnits } from '../show/units.ts';
import { amount } from '../show/words.ts';
import { jobHolder } from '../survey/job-holder.ts';
import { cableOf } from './cable.ts';
import { cornerName } from './handles.tsx';
import { addedAfter, mayBeTakenAway, takenAway } from './moves.ts';
import { choose, useRoute } from './route.ts';

/** As many as the job document has room for. */
const MOST_CORNERS = 400;

export function Corners() {
  const document = useDesk((state) => state.document);
  const wished = useRoute((state) => state.chosen);
  const found = document === null ? null : cableOf(document);
  if (found === null) return null;
  const { route } = found.cable;
  const chosen = Math.min(wished, route.length - 1);
  return (
    <section className="route-corners" aria-labelledby="route-corners-title">
      <h3 id="route-corners-title">Corners, from the handle to the lever</h3>
      <ul>
        {route.map((corner, i) => (
          <li key={i}>
            <button
              type="button"
              className="route-corner"
              aria-current={i === chosen ? 'true' : undefined}
              onClick={() => choose(i)}
            >
              <span>{upper(cornerName(i, route.length, corner.name))}</span>
              {isWhole(route, i) ? <BendWords corner={i} /> : <b className="route-missing">Not measured yet</b>}
            </button>
          </li>
        ))}
      </ul>
      <CornerFields key={chosen} cable={found.cable} path={found.path} corner={chosen} />
    </section>
  );
}

/** Without all readings of every corner nothing is drawn. The radius at an end is of no use. */
function isWhole(route: HandCable['route'], corner: number): boolean {
  const { x, y, z, radius } = route[corner] ?? {};
  const isEnd = corner === 0 || corner === route.length - 1;
  return [x, y, z, isEnd ? '' : radius].every((text) => text !== undefined && text !== NOT_MEASURED);
}

const upper = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);

/** "Bend 2: 90°, 28 N". The dearest says so. */
function BendWords({ corner }: { readonly corner: number }) {
  const study = useRoute((state) => state.drawn?.study ?? null);
  const units = useUnits((state) => state.units);
  const run = study?.run ?? null;
  const misfit = run?.misfits.find((one) => one.corner === corner);
  const at = run?.bends.findIndex((one) => one.corner === corner) ?? -1;
  const bend = run?.bends[at];
  const costs = study?.worst?.bendCost_N ?? [];
  const cost = costs[at] ?? null;
  const isDearest = cost !== null && cost > 0 && costs.every((other) => other === null || other <= cost);
  return (
    <span className="quiet">
      {bend !== undefined && `Bend ${bend.number}: ${Math.round(bend.angle_deg)}°`}
      {cost !== null && `, costs ${amount(cost, 'N', units)} at the handle`}
      {isDearest && <b className="route-dearest"> – the dearest</b>}
      {misfit !== undefined && <b className="route-misfit"> {misfitWords[misfit.why]}</b>}
    </span>
  );
}

const misfitWords = {
  'no room': 'No room for this radius',
  'turns back': 'Turns straight back',
  'same place': 'At the place of another corner',
} as const;

/** Here, where plan and elevation stand above, "up" alone could be either. */
const labels: Readonly<Record<string, string>> = {
  name: 'Name',
  x: 'x, in plan to the right',
  y: 'y, in plan up the sheet',
  z: 'z, height',
  radius: 'Radius of the bend',
};

interface CornerFieldsProps {
  readonly cable: HandCable;
  readonly path: string;
  readonly corner: number;
}

function CornerFields({ cable, path, corner }: CornerFieldsProps) {
  const fields = useCornerForm();
  const { route } = cable;
  const isEnd = corner === 0 || corner === route.length - 1;
  const name = cornerName(corner, route.length, route[corner]?.name);
  const add = async () => {
    await propose({ name: `Corner added after ${name}`, changes: (document) => addedAfter(document, corner) });
    choose(corner + 1);
  };
  const takeAway = async () => {
    await propose({ name: `Taken away: ${name}`, changes: (document) => takenAway(document, corner) });
    choose(corner - 1);
  };
  return (
    <fieldset className="group route-fields">
      <legend>{upper(name)}</legend>
      <HolderOfFields value={jobHolder}>
        <div className="fields">
          {fields
            // The radius at an end is of no use.
            .filter(({ key }) => !isEnd || key !== 'radius')
            .map(({ key, form, optional }) => (
              <Field
                key={key}
                path={`${path}.route[${corner}].${key}`}
                form={form}
                optional={optional}
                label={labels[key] ?? key}
              />
            ))}
        </div>
      </HolderOfFields>
      <div className="route-acts">
        {corner < route.length - 1 && route.length < MOST_CORNERS && (
          <button type="button" onClick={() => void add()}>
            Add a corner after it
          </button>
        )}
        {mayBeTakenAway(cable, corner) && (
          <button type="button" onClick={() => void takeAway()}>
            Take this corner away
          </button>
        )}
      </div>
    </fieldset>
  );
}

/** The fields of a corner, out of the form of the whole document. */
function useCornerForm(): readonly FieldForm[] {
  const [fields, setFields] = useState<readonly FieldForm[]>([]);
  useEffect(() => {
    let isWanted = true;
    const load = async () => {
      const form = await reckoner.form();
      if (isWanted) setFields(cornerFields(form));
    };
    void load();
    return () => {
      isWanted = false;
    };
  }, []);
  return fields;
}

function cornerFields(form: Form): readonly FieldForm[] {
  const means = form.kind === 'group' ? form.fields.find(({ key }) => key === 'means')?.form : undefined;
  const cable = means?.kind === 'kinds' ? means.kinds.find(({ name }) => name === 'hand cable')?.form : undefined;
  const route = cable?.fields.find(({ key }) => key === 'route')?.form;
  return route?.kind === 'list' && route.item.kind === 'group' ? route.item.fields : [];
}
