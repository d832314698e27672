/** What in a picture stands where in the text, and the other way round. A thing is named `deposit/0`, `bay/3`, `step/12`. */
import type { Place } from '../vocabulary/given.ts';
import type { BayPicture, PictureData } from './data.ts';
import type { Translate } from './words.ts';

/** The place in the text that a thing of the picture leads to. */
export function placeOfThing(data: PictureData, thing: string): Place | undefined {
  const [kind, at] = thing.split('/');
  const i = Number(at);
  switch (kind) {
    case 'runway':
      return data.runways[i]?.place;
    case 'deposit':
      return data.deposits[i]?.place;
    case 'work':
      return data.works[i]?.place;
    case 'bay':
      return data.works[data.bays[i]?.work ?? -1]?.place;
    case 'machine':
      return data.machines[i]?.place;
    case 'activity':
      return data.activities[i]?.place;
    case 'night':
      return data.nights[i]?.place;
    case 'finding':
      return data.findings[i]?.place;
    default:
      return undefined;
  }
}

/** The things whose text holds a place: those of the innermost block. */
export function thingsAt(data: PictureData, file: string, offset: number): readonly string[] {
  const candidates: { readonly thing: string; readonly place: Place }[] = [
    ...data.deposits.map((each, i) => ({ thing: `deposit/${i}`, place: each.place })),
    ...data.works.map((each, i) => ({ thing: `work/${i}`, place: each.place })),
    ...data.machines.map((each, i) => ({ thing: `machine/${i}`, place: each.place })),
    ...data.activities.map((each, i) => ({ thing: `activity/${i}`, place: each.place })),
    ...data.nights.flatMap((each, i) => (each.place ? [{ thing: `night/${i}`, place: each.place }] : [])),
  ];
  const inside = candidates.filter(({ place }) => place.file === file && place.start <= offset && offset <= place.end);
  const length = ({ place }: { place: Place }): number => place.end - place.start;
  const least = Math.min(...inside.map(length));
  return inside.filter(each => length(each) === least).map(each => each.thing);
}

/** What a thing is called, for a tooltip and for speech. */
export function nameOfBay(
  data: Pick<PictureData, 'works'>,
  bay: { readonly work: number; readonly number: number },
): string {
  return `${data.works[bay.work]!.name} ${bay.number}`;
}

/** Short name of a bay: `S2`; `2` where the job has one work. */
export function codeOfBay(
  data: Pick<PictureData, 'works'>,
  bay: { readonly work: number; readonly number: number },
): string {
  return `${data.works[bay.work]!.code}${bay.number}`;
}

/** How a bay stands to its limits, in words. */
export function stateText({ state }: Pick<BayPicture, 'state'>, t: Translate): string {
  return state === 'kept' ? t('keeps its limits') : state === 'over' ? t('stands too long') : t('soaks too short');
}
