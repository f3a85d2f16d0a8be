/** The survey in the order of the job, with what is still missing marked on each step. */
import { useEffect, useState } from 'react';
import { valueAt } from '../../job/path.ts';
import { useDesk, type Desk } from '../desk/desk.ts';
import { reckoner } from '../reckoning/reckoner.ts';
import type { Form } from '../reckoning/form.ts';
import { Field } from '../fields/field.tsx';
import { HolderOfFields } from '../fields/holder.ts';
import { jobHolder } from './job-holder.ts';
import { labelOf, surveySteps } from './labels.ts';
import { notMeasured } from './missing.ts';

type Step = (typeof surveySteps)[number];

let loaded: Promise<Form> | null = null;

export default function Survey() {
  const [form, setForm] = useState<Form | null>(null);
  const [hasFailed, setFailed] = useState(false);
  const wanted = useDesk((state) => state.wantedField);
  const [chosen, setChosen] = useState<{ readonly key: Step['key']; readonly at: number }>({ key: 'survey', at: 0 });
  // A link to a field chooses its step, until a step is chosen by hand after it.
  const key = wanted !== null && wanted.at > chosen.at ? (stepOf(wanted.path)?.key ?? chosen.key) : chosen.key;
  const setKey = (next: Step['key']) => setChosen({ key: next, at: Date.now() });
  useEffect(() => {
    loaded ??= reckoner.form();
    loaded.then(setForm, () => {
      loaded = null; // to be asked for again when the survey is opened the next time
      setFailed(true);
    });
  }, []);
  useEffect(() => {
    if (wanted === null || form === null) return;
    const frame = requestAnimationFrame(() => requestAnimationFrame(() => focusField(wanted.path)));
    return () => cancelAnimationFrame(frame);
  }, [wanted, form]);
  const at = surveySteps.findIndex((step) => step.key === key);
  const step = surveySteps[at] ?? surveySteps[0];
  const next = surveySteps[at + 1];
  return (
    <div className="survey">
      <nav className="steps" aria-label="Steps of the survey">
        <ol>
          {surveySteps.map((one, i) => (
            <li key={one.key}>
              <StepButton step={one} number={i + 1} isChosen={one.key === key} choose={() => setKey(one.key)} />
            </li>
          ))}
        </ol>
      </nav>
      <h3 className="survey-title">{step.title}</h3>
      {form?.kind === 'group' ? (
        <HolderOfFields value={jobHolder}>
          {step.parts.map((part) => (
            <Part key={part} part={part} form={form} />
          ))}
        </HolderOfFields>
      ) : (
        <p className="quiet" role="status">
          {hasFailed
            ? 'The fields could not be laid out. Check that Stopwright is running, then open the survey again.'
            : 'Laying out the fields…'}
        </p>
      )}
      {next !== undefined && form !== null && (
        <button type="button" className="survey-next" onClick={() => setKey(next.key)}>
          Next: {next.title.toLowerCase()}
        </button>
      )}
    </div>
  );
}

function Part({ part, form }: { readonly part: string; readonly form: Form & { readonly kind: 'group' } }) {
  const field = form.fields.find(({ key }) => key === part);
  if (field === undefined) return null;
  const isInside = field.form.kind === 'group' && !field.optional;
  if (!isInside || field.form.kind !== 'group')
    return <Field path={part} form={field.form} optional={field.optional} label={partLabel(part)} />;
  return (
    <div className="fields">
      {field.form.fields.map((inner) => (
        <Field key={inner.key} path={`${part}.${inner.key}`} form={inner.form} optional={inner.optional} />
      ))}
    </div>
  );
}

interface StepButtonProps {
  readonly step: Step;
  readonly number: number;
  readonly isChosen: boolean;
  readonly choose: () => void;
}

/** The means fill a step of their own, whose title stands above them already. */
function partLabel(part: string): string {
  if (part === 'means') return '';
  return part === 'name' ? 'Name of the installation' : labelOf(part);
}

function StepButton({ step, number, isChosen, choose }: StepButtonProps) {
  const missing = useDesk((state) => missingIn(state, step));
  const drafts = useDesk((state) => Object.keys(state.drafts).filter((path) => isIn(step, path)).length);
  const marks = [missing === 0 ? null : `${missing} missing`, drafts === 0 ? null : `${drafts} NOT kept`].filter(
    (mark) => mark !== null,
  );
  return (
    <button type="button" className="step" aria-current={isChosen ? 'step' : undefined} onClick={choose}>
      <span className="step-name">
        {number} {step.title}
      </span>
      <span className={`step-mark${marks.length > 0 ? ' is-open' : ''}`}>
        {marks.length > 0 ? marks.join(', ') : '✓ complete'}
      </span>
    </button>
  );
}

const stepOf = (path: string): Step | undefined => surveySteps.find((step) => isIn(step, path));

const isIn = (step: Step, path: string): boolean =>
  step.parts.some((part) => path === part || path.startsWith(`${part}.`) || path.startsWith(`${part}[`));

/** Readings marked as not measured, and those that a finding asks for and that have no place in the document yet. */
function missingIn({ document, assessment }: Desk, step: Step): number {
  // Of a means that is only held beside, nothing has to be read.
  const own = step.parts.filter((part) => part !== 'considered');
  const paths = new Set(own.flatMap((part) => notMeasured(valueAt(document, part), part)));
  for (const finding of assessment?.findings ?? [])
    for (const path of finding.missing) if (isIn(step, path)) paths.add(path);
  return paths.size;
}

/** Goes to the field, or to the part that would hold it. */
function focusField(path: string): void {
  for (let at = path; at !== ''; at = at.replace(/[.[]?[^.[]*$/, '')) {
    const field = document.getElementById(`field-${at}`);
    if (field === null) continue;
    field.scrollIntoView({ block: 'center' });
    const control = field.querySelector<HTMLElement>('input, textarea, button');
    control?.focus({ preventScroll: true });
    return;
  }
}
