/** The name of a field, which leads there when tapped. */
import { valueAt } from '../../job/path.ts';
import { goToField, useDesk } from '../desk/desk.ts';
import { placeName } from '../survey/labels.ts';

export function FieldLink({ path, withValue = false }: { readonly path: string; readonly withValue?: boolean }) {
  const value = useDesk((state) => (withValue ? valueAt(state.document, path) : undefined));
  return (
    <button type="button" className="link" onClick={() => goToField(path)}>
      {placeName(path)}
      {(typeof value === 'string' || typeof value === 'number') && <span className="link-value">{value}</span>}
    </button>
  );
}
