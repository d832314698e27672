/** The time control, and the controls of what is looked at. A line of plain words says what happens at the moment shown. */
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { PictureData } from '../../language/pictures/data.ts';
import type { Clock, SheetView } from '../../language/pictures/layout.ts';
import { clockText } from '../../language/pictures/minutes.ts';
import { momentText } from '../../language/pictures/moment.ts';
import { clockName } from '../../language/pictures/soakMap.tsx';
import type { Hover } from './hover.ts';
import { useWords } from './words.ts';

export interface BarProps {
  readonly data: PictureData;
  readonly view: SheetView;
  readonly off: boolean;
  readonly says: string | undefined;
  readonly hover: Hover;
  readonly change: (view: Partial<SheetView>) => void;
  readonly openNight: (night: number) => void;
  readonly zoom: (factor: number | 'all') => void;
  readonly hours: (times: 1 | 3) => void;
}

export function Bar(props: BarProps) {
  const t = useWords();
  const { data, view, off, change, openNight, zoom, hours } = props;
  const night = data.nights[view.night]!;
  const text = useMemo(() => momentText(data, view.night, view.time, t), [data, view.night, view.time, t]);
  const runway = data.runways[view.runway]!;
  return (
    <div class="control-bar">
      <div class="controls">
        <Play {...props} />
        <span class="clock" aria-hidden="true">
          {clockText(night, view.time)}
        </span>
        <input
          type="range"
          aria-label={t('Time')}
          aria-valuetext={text}
          min={Math.round(night.start)}
          max={Math.round(night.end)}
          step={60}
          value={Math.round(view.time)}
          onInput={event => change({ time: Number(event.currentTarget.value) })}
        />
        {data.nights.length > 1 && data.nights.length <= 7 && (
          <div class="group" role="group" aria-label={t('Closure')}>
            {data.nights.map((each, i) => (
              <button type="button" aria-pressed={i === view.night} title={each.label} onClick={() => openNight(i)}>
                {each.short.split(' ')[0]}
              </button>
            ))}
          </div>
        )}
        {data.nights.length > 7 && (
          <select
            aria-label={t('Closure')}
            value={view.night}
            onChange={event => openNight(Number(event.currentTarget.value))}
          >
            {data.nights.map((each, i) => (
              <option value={i}>{each.label}</option>
            ))}
          </select>
        )}
        {data.runways.length > 1 && (
          <select
            aria-label={t('Runway')}
            value={view.runway}
            onChange={event => change({ runway: Number(event.currentTarget.value) })}
          >
            {data.runways.map((each, i) => (
              <option value={i}>{each.name}</option>
            ))}
          </select>
        )}
        <select
          aria-label={t('What the map shows')}
          value={view.clock}
          onChange={event => change({ clock: event.currentTarget.value as Clock })}
          disabled={off}
        >
          {(['soak', 'wetGap', 'residence'] as const).map(clock => (
            <option value={clock}>{clockName(clock, t)}</option>
          ))}
        </select>
        <select
          class="across"
          aria-label={t('Lateral exaggeration of the plan')}
          value={view.across ?? 'fit'}
          onChange={event =>
            change({
              across: event.currentTarget.value === 'fit' ? undefined : Number(event.currentTarget.value),
            } as Partial<SheetView>)
          }
        >
          <option value="fit">{t('across: fit')}</option>
          {[1, 2, 5, 10, 20].map(each => (
            <option value={each}>{t('across ×{0}', each)}</option>
          ))}
        </select>
        <div class="group" role="group" aria-label={t('Along the runway')}>
          <button
            type="button"
            title={t('Show more of the runway')}
            aria-label={t('Show more of the runway')}
            onClick={() => zoom(1.5)}
          >
            −
          </button>
          <button
            type="button"
            title={t('Show less of the runway, larger')}
            aria-label={t('Show less of the runway, larger')}
            onClick={() => zoom(1 / 1.5)}
          >
            +
          </button>
          <button
            type="button"
            title={t('The whole job')}
            aria-pressed={
              view.along !== undefined &&
              view.along.length === runway.stretches.length &&
              same(view.along, runway.stretches)
            }
            onClick={() => zoom('all')}
          >
            {t('all')}
          </button>
        </div>
        <div class="group" role="group" aria-label={t('Hours')}>
          <button
            type="button"
            aria-pressed={view.span === undefined}
            title={t('The whole closure')}
            onClick={() => hours(1)}
          >
            {t('fit')}
          </button>
          <button
            type="button"
            aria-pressed={view.span !== undefined}
            title={t('A third of the closure, three times as large')}
            onClick={() => hours(3)}
          >
            ×3
          </button>
        </div>
      </div>
      <Says {...props} text={text} />
    </div>
  );
}

function same(a: readonly (readonly [number, number])[], b: readonly (readonly [number, number])[]): boolean {
  return a.every((each, i) => Math.abs(each[0] - b[i]![0]) + Math.abs(each[1] - b[i]![1]) < 1);
}

function Says({ says, hover, text }: BarProps & { readonly text: string }) {
  const [over, setOver] = useState<string | undefined>(undefined);
  useEffect(() => hover.listen(point => setOver(point?.text)), [hover]);
  const line = says ?? (over || text);
  return (
    <p class="says" title={line}>
      {line}
    </p>
  );
}

/** Plays a closure in about 45 s; where motion is unwelcome, in steps of five minutes, one a second. */
function Play({ data, view, change, off }: BarProps) {
  const t = useWords();
  const [plays, setPlays] = useState(false);
  const night = data.nights[view.night]!;
  const now = useRef(view.time);
  now.current = view.time;
  useEffect(() => {
    if (!plays) return undefined;
    const step = (by: number): boolean => {
      const time = now.current + by;
      change({ time: Math.min(night.end, time) });
      if (time >= night.end) setPlays(false);
      return time < night.end;
    };
    if (window.matchMedia('(prefers-reduced-motion: reduce)').matches) {
      const timer = setInterval(() => step(300), 1000);
      return () => clearInterval(timer);
    }
    const speed = (night.end - night.start) / 45_000;
    let last = performance.now();
    let frame = requestAnimationFrame(function next(at) {
      const going = step(Math.min(100, at - last) * speed);
      last = at;
      if (going) frame = requestAnimationFrame(next);
    });
    return () => cancelAnimationFrame(frame);
  }, [plays, night.start, night.end, change]);
  const begin = (): void => {
    if (!plays && view.time >= night.end - 60) change({ time: night.start });
    setPlays(!plays);
  };
  return (
    <button
      type="button"
      class="play"
      aria-label={plays ? t('Pause') : t('Play the closure')}
      aria-pressed={plays}
      onClick={begin}
      disabled={off}
    >
      <svg width="12" height="12" aria-hidden="true">
        <path d={plays ? 'M1 0h4v12h-4Z M7 0h4v12h-4Z' : 'M1 0L12 6L1 12Z'} />
      </svg>
    </button>
  );
}
