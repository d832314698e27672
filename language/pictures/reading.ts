/** What stands under a point of the sheet, in words: the place, the moment, the clocks there. */
import type { PictureData } from './data.ts';
import type { Layout, SheetView } from './layout.ts';
import { inUnit, lengthUnit, offsetText } from './lengths.ts';
import { clockText, limitOf, minutes } from './minutes.ts';
import { clockName } from './soakMap.tsx';
import { nameOfBay } from './things.ts';
import type { Translate } from './words.ts';

export function readingAt(
  data: PictureData,
  view: SheetView,
  layout: Layout,
  px: number,
  py: number,
  t: Translate,
): string {
  const { chart, plan, map, time, along } = layout;
  const parts: string[] = [];
  const unit = lengthUnit(data);
  const inChart = px >= chart.x && px <= chart.x + chart.w;
  const x = along.x(px);
  const night = data.nights[view.night]!;
  const inPlan = py >= plan.y && py <= plan.y + plan.h;
  const inMap = py >= map.y && py <= map.y + map.h;
  if (inChart && py >= plan.y) {
    const segment = along.segments.find(each => px <= each.px[1]) ?? along.segments.at(-1);
    const ruler = segment && data.runways[view.runway]!.rulers[segment.ruler];
    if (ruler) {
      const y = inPlan ? layout.planOffset(py) : inMap ? ((py - map.y) / map.h - 0.5) * 2 * layout.reach : undefined;
      const offset = y === undefined ? '' : `, ${offsetText(y * ruler.dir, unit)}`;
      parts.push(
        t('{0} from {1}', `${inUnit(ruler.dir * (x - ruler.zero), unit, 0)} ${unit.name}`, ruler.end) + offset,
      );
      if (y !== undefined) parts.push(...clocksAt(data, view, x, y, t));
    }
  }
  if (py >= time.y && py <= time.y + time.h) parts.push(clockText(night, layout.timeAt(py)));
  return parts.join(' · ');
}

/** The clocks of the cell that holds a point, exactly. */
export function clocksAt(data: PictureData, view: SheetView, x: number, y: number, t: Translate): readonly string[] {
  for (const bay of data.bays) {
    if (data.works[bay.work]!.runway !== view.runway || x < bay.x[0] || x > bay.x[1]) continue;
    const cell = bay.cells.find(each => x >= each.x[0] && x <= each.x[1] && y >= each.y[0] && y <= each.y[1]);
    if (!cell) continue;
    const share = (x - cell.x[0]) / (cell.x[1] - cell.x[0] || 1);
    const read = (clock: 'soak' | 'wetGap' | 'residence'): readonly string[] => {
      const values = cell[clock];
      return values
        ? [`${clockName(clock, t)} ${minutes(values[0] + (values[1] - values[0]) * share, limitOf(bay, clock))} min`]
        : [];
    };
    return [
      nameOfBay(data, bay),
      ...read('soak'),
      ...read('wetGap'),
      ...read('residence'),
      [
        cell.contacts > 0 && t('{0} contacts', cell.contacts),
        cell.jets > 0 && t('{0} jet passes', cell.jets),
        t('{0} rinses', cell.rinses),
      ]
        .filter(each => each !== false)
        .join(', '),
    ];
  }
  return [];
}
