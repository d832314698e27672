/** What would save a closure, worded as fixes: only changes of literals and arguments in the job's own file. */
import type { Change, Saving } from '../mend/closures.ts';
import type { Fix, Results } from './check.ts';
import { editable, fix, replaceValue, write } from './help.ts';

/** A fix for each change that the job's own text allows. */
export function savingFixes(results: Results, savings: readonly Saving[]): readonly Fix[] {
  return savings.flatMap(({ change }) => fixOf(results, change));
}

function fixOf(results: Results, change: Change): readonly Fix[] {
  switch (change.kind) {
    case 'bays': {
      const { plan, count } = change;
      return replaceValue(results, plan.work.bays, String(count), `Set the bays of ${plan.work.name} to ${count}`);
    }
    case 'speed': {
      const { plan, planned, speed } = change;
      const written = write(speed, planned.step.speed?.unit, 'up');
      if (written === undefined) return [];
      const step = `${plan.work.name}.${planned.step.name}`;
      return replaceValue(results, planned.step.speed, written, `Set the speed of ${step} to ${written}`);
    }
    case 'hours': {
      const { closure, from, to } = change;
      const place = editable(results, closure.hours);
      if (!place || !closure.hours) return [];
      const text = results.textOf(place.file).slice(place.start, place.end);
      const times = /^(\S+)(\s+to\s+)([\d:]+)/.exec(text);
      if (!times) return [];
      const opens = from !== closure.hours.value.from;
      const changed = `${opens ? clock(from) : times[1]}${times[2]}${opens ? times[3] : clock(to)}`;
      const title = opens ? `Open ${closure.name} at ${clock(from)}` : `Close ${closure.name} at ${clock(to)}`;
      return fix(title, [{ place, text: changed + text.slice(times[0].length) }]);
    }
    case 'crew':
      return replaceValue(
        results,
        change.crew.people,
        String(change.people),
        `Plan ${change.people} people in ${change.crew.name}`,
      );
    case 'number':
      return replaceValue(
        results,
        change.closure.number,
        String(change.number),
        `Allow ${change.number} closures of ${change.closure.name}`,
      );
    case 'machine': {
      const { bindings, machine } = change;
      const edits = bindings.flatMap(({ bound }) => {
        const { place } = bound[0]!;
        const text = results.textOf(place.file).slice(place.start, place.end);
        const written = withMachine(text, machine.name, bound.find(each => each.machine === machine)?.count);
        return place.file === results.job.file && written !== undefined ? [{ place, text: written }] : [];
      });
      if (edits.length < bindings.length) return [];
      const works = bindings.map(each => each.plan.work.name).join(' and ');
      return fix(`Add ${machine.name} to the ${bindings[0]!.role} of ${works}`, edits);
    }
  }
}

/** `District.Broom1, District.Broom2` with a third, under the prefix of the others; or one more of the same. */
function withMachine(text: string, name: string, count: number | undefined): string | undefined {
  if (!/^[\w.,\s-]+$/.test(text)) return undefined;
  if (count === undefined) {
    const prefix = /([\w-]+\.)[\w-]+\s*$/.exec(text)?.[1] ?? '';
    return `${text}, ${prefix}${name}`;
  }
  const parts = text.split(',').map(each => each.trim());
  const at = parts.findIndex(each => each === name || each.endsWith(`.${name}`) || each.endsWith(` ${name}`));
  if (at < 0) return undefined;
  parts[at] = `${count + 1} of ${parts[at]!.replace(/^\d+\s+of\s+/, '')}`;
  return parts.join(', ');
}

/** `22:30` from minutes after midnight. */
export function clock(minutes: number): string {
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}
