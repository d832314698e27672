import { fix, problemCheck } from '../help.ts';

export default problemCheck({
  code: 'unit-missing',
  title: 'A number has no unit',
  why: 'Every number that has a dimension carries its unit, because 45 m and 45 ft differ by a factor of three and both look right. So no unit is ever assumed.',
  bad: ['    notice-lead: 72 h', '    notice-lead: 72'],
  fixes: ({ place, data }) =>
    typeof data?.units === 'object'
      ? data.units
          .slice(0, 3)
          .flatMap(unit => fix(`Write ${data.number} ${unit}`, [{ place, text: `${data.number} ${unit}` }]))
      : [],
});
