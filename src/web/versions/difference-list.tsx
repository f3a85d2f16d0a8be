/** What differs between two versions, as a table in the words of the trade. */
import type { Change } from '../../job/change.ts';
import { computedWords } from '../show/computed.ts';
import { placeName } from '../survey/labels.ts';

interface Props {
  readonly changes: readonly Change[];
  readonly from: string;
  readonly to: string;
}

export function DifferenceList({ changes, from, to }: Props) {
  return (
    <table className="differences">
      <thead>
        <tr>
          <th scope="col">Field</th>
          <th scope="col">{from}</th>
          <th scope="col">{to}</th>
        </tr>
      </thead>
      <tbody>
        {changes.map((change) => (
          <tr key={change.path}>
            <th scope="row">{placeName(change.path)}</th>
            <td>{valueText(change.from)}</td>
            <td>{valueText(change.to)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** A value as text; a part with several fields says what is in it. */
export function valueText(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'string') return value === '' ? 'nothing' : value;
  const computed = computedWords(value);
  if (computed !== null) return computed;
  if (Array.isArray(value))
    return value.length === 0 ? 'none' : `${value.length} rows: ${value.map(valueText).join('; ')}`;
  if (typeof value === 'object' && value !== null) return Object.values(value).map(valueText).join(', ');
  return typeof value === 'number' ? String(value) : '';
}
