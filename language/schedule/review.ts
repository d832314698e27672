/** What a schedule means for those who work by it: recall, odds, duties, light; and why there is none, where there is none. */
import { type Duty, dutiesOf, type WrongLight, wrongLight } from './duty.ts';
import { type Odds, oddsOf } from './odds.ts';
import { type Recall, recallOf } from './recall.ts';
import type { Schedule } from './schedule.ts';
import { type Load, loads, type WhyNot, whyNot } from './why.ts';

export interface Review {
  /** Why there is no schedule, where it is proved that there is none. */
  readonly why: readonly WhyNot[];
  readonly recall: Recall;
  /** Undefined where nothing in the text has a tolerance. */
  readonly odds: Odds | undefined;
  readonly duties: readonly Duty[];
  readonly wrongLight: readonly WrongLight[];
  /** Busiest machine first. */
  readonly loads: readonly Load[];
}

/** Reviews a schedule; cheap enough to be done at every change of the text. */
export function reviewOf(schedule: Schedule): Review {
  return {
    why: whyNot(schedule),
    recall: recallOf(schedule),
    odds: oddsOf(schedule),
    duties: dutiesOf(schedule),
    wrongLight: wrongLight(schedule),
    loads: loads(schedule),
  };
}
