import { dewPoint } from '../../formulas/evaporation.ts';
import { check } from '../check.ts';
import { below, refOf, say } from '../help.ts';

const kelvin = 273.15;

export default check({
  code: 'dew-forms',
  title: 'Dew forms on the pavement',
  severity: 'warning',
  why: 'Where the pavement is colder than the dew point of the air, water settles on it: the product is diluted without anyone pouring water, and the runway does not dry before the inspection. The dew point follows from air temperature and humidity.',
  source: 'dew-point-inverse',
  bad: ['    surface:  12 °C', '    surface:  7 °C'],
  *find(results) {
    const margins = results.job.blocks.weatherStops.map(stop => stop.dewPointMargin?.value ?? 0);
    const margin = Math.max(0, ...margins);
    for (const block of results.job.blocks.conditions) {
      const { air, humidity, surface } = block;
      if (!air || !humidity || !surface) continue;
      const dew = dewPoint(air.value - kelvin, humidity.value) + kelvin;
      if (!below(surface.value, dew + margin)) continue;
      const at = say(results, dew, 'temperature', surface);
      yield {
        message:
          surface.value < dew
            ? `The pavement is at ${say(results, surface.value, 'temperature', surface)}, below the dew point of ${at}, so dew forms and dilutes the product. Work earlier in the night or in drier air.`
            : `The pavement is at ${say(results, surface.value, 'temperature', surface)}, less than ${say(results, margin, 'temperature difference')} above the dew point of ${at}. Work earlier in the night or in drier air.`,
        place: surface.place,
        about: refOf(block),
      };
    }
  },
});
