/** The verdict and its numbers. Only the verdict is announced by itself. */
import { useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import type { PictureData } from '../../language/pictures/data.ts';
import { Sign, type SignKind } from '../../language/pictures/parts.tsx';
import type { Fact } from '../../language/pictures/verdict.ts';
import { tell } from '../../language/pictures/words.ts';
import type { Place } from '../../language/vocabulary/given.ts';
import type { Picture } from './delivery.ts';
import { useTurn } from './turns.ts';
import { useWords } from './words.ts';

interface HeadProps {
  readonly data: PictureData;
  /** Facts before a drag began, to show before → after. */
  readonly before: readonly Fact[] | undefined;
  /** The text can't be read, or the engine failed: what to say in place of the verdict. */
  readonly trouble: { readonly headline: string; readonly detail: string; readonly place?: Place } | undefined;
  readonly computing: boolean;
  readonly reveal: (place: Place) => void;
  readonly cure: (finding: number, fix: number) => void;
  readonly open: (severity: string) => void;
}

/** The head, drawn in its turn; as high as it was, so that what stands below it does not move. */
export function HeadInTurn({
  picture,
  place,
  drawn,
  cure,
  ...props
}: Omit<HeadProps, 'data' | 'cure'> & {
  readonly picture: Picture;
  /** Where it stands: in another place it may have another height. */
  readonly place: string;
  readonly cure: (picture: Picture, finding: number, fix: number) => void;
  /** Hears that it is there. */
  readonly drawn: (there: boolean) => void;
}) {
  const shown = useTurn('head', picture, samePicture, () => document.querySelector('.head'));
  const height = useRef<HeadHeight>({ key: '', height: 0 });
  useLayoutEffect(() => {
    if (!shown) return;
    height.current = keptHeight(height.current, place);
    drawn(true);
  }, [shown, place, props.before, props.trouble, props.computing]);
  return useMemo(
    () => shown && <Head {...props} data={shown.data} cure={(finding, fix) => cure(shown, finding, fix)} />,
    [shown, props.before, props.trouble, props.computing],
  );
}

function samePicture(a: Picture, b: Picture): boolean {
  return a.data === b.data;
}

interface HeadHeight {
  readonly key: string;
  readonly height: number;
}

/** A head that is smaller than before by more than this gives its room back, px: two lines and a row of buttons. */
const headSlack = 64;

/** Keeps the head as high as it was, so that a wording that takes a line more or less does not move and redraw the figures. */
function keptHeight(before: HeadHeight, key: string): HeadHeight {
  const head = document.querySelector<HTMLElement>('.head');
  if (!head) return before;
  head.style.minHeight = '';
  const needed = head.getBoundingClientRect().height;
  const keeps = before.key === key && needed <= before.height && before.height - needed <= headSlack;
  const height = keeps ? before.height : needed;
  head.style.minHeight = `${height}px`;
  return { key, height };
}

function Head({ data, before, trouble, computing, reveal, cure, open }: HeadProps) {
  const t = useWords();
  const { verdict } = data;
  const sign: SignKind =
    trouble || verdict.state === 'fails'
      ? 'error'
      : verdict.state === 'warned'
        ? 'warning'
        : verdict.state === 'works'
          ? 'kept'
          : 'hint';
  const finding = verdict.finding === undefined ? undefined : data.findings[verdict.finding];
  return (
    <header class="head">
      <div class="verdict">
        <svg class="sign" width="18" height="18" viewBox="-9 -9 18 18" aria-hidden="true">
          <Sign kind={sign} x={0} y={0} size={16} />
        </svg>
        <h1 aria-live="polite" title={trouble?.headline ?? verdict.headline}>
          {trouble?.headline ?? verdict.headline}
          {!trouble && verdict.state === 'provisional' && <span class="visually-hidden"> {t('(provisional)')}</span>}
        </h1>
        <Counts data={data} open={open} />
        <p class="detail" title={trouble?.detail ?? verdict.detail}>
          {trouble?.detail ?? verdict.detail}
          {computing && ` ${t('Computing …')}`}
        </p>
        <div class="cures">
          {trouble?.place && (
            <button type="button" class="cure" onClick={() => reveal(trouble.place!)}>
              {t('Go to the line')}
            </button>
          )}
          {!trouble && !finding && verdict.sum && (
            <button type="button" class="cure" onClick={() => open('sum')}>
              {verdict.sum.title}
            </button>
          )}
          {!trouble && finding && (
            <>
              <button type="button" class="plain" onClick={() => reveal(finding.place)}>
                {finding.line === undefined ? t('Show in the text') : t('Line {0}', finding.line)}
              </button>
              {finding.fixes.slice(0, 3).map((fix, i) => (
                <button type="button" class="cure" onClick={() => cure(verdict.finding!, i)}>
                  {fix.title}
                </button>
              ))}
            </>
          )}
        </div>
      </div>
      {verdict.facts.length > 0 && (
        <ul class="facts">
          {verdict.facts.map(fact => (
            <FactItem fact={fact} before={before?.find(each => each.key === fact.key)} reveal={reveal} />
          ))}
        </ul>
      )}
    </header>
  );
}

function Counts({ data, open }: Pick<HeadProps, 'data' | 'open'>) {
  const t = useWords();
  const { errors, warnings, hints, waived } = data.verdict.counts;
  const entries: readonly [SignKind, number, string][] = [
    ['error', errors, errors === 1 ? t('1 error') : t('{0} errors', errors)],
    ['warning', warnings, warnings === 1 ? t('1 warning') : t('{0} warnings', warnings)],
    ['hint', hints, hints === 1 ? t('1 hint') : t('{0} hints', hints)],
    ['waived', waived, t('{0} waived', waived)],
  ];
  return (
    <div class="counts">
      {entries
        .filter(([, count]) => count > 0)
        .map(([kind, , text]) => (
          <button type="button" onClick={() => open(kind)}>
            <svg width="14" height="14" viewBox="-7 -7 14 14" aria-hidden="true">
              <Sign kind={kind} x={0} y={0} size={12} />
            </svg>
            {text}
          </button>
        ))}
    </div>
  );
}

function FactItem({ fact, before, reveal }: { fact: Fact; before: Fact | undefined; reveal: HeadProps['reveal'] }) {
  const t = useWords();
  const changed = before !== undefined && (before.value !== fact.value || before.unit !== fact.unit);
  const inside = (
    <>
      <span class="label">{tell(t, fact.label)}</span>
      <br />
      <span class="amount">
        {fact.sign && (
          <>
            <svg class="sign" width="12" height="12" viewBox="-6 -6 12 12" aria-hidden="true">
              <Sign kind={fact.sign} x={0} y={0} size={12} />
            </svg>
            <span class="visually-hidden">{t('misses its limit')}: </span>
          </>
        )}
        <span class="value">{fact.value}</span> {fact.unit}
      </span>
      {fact.gauge && <Gauge {...fact.gauge} missed={fact.sign !== undefined} />}
      {!fact.gauge && <br />}
      {changed ? (
        <span class="before">{t('was {0}', `${before.value} ${before.unit}`.trim())}</span>
      ) : (
        <span class="below">{fact.below}</span>
      )}
    </>
  );
  const name = fact.sign ? 'fact missed' : 'fact';
  return (
    <li class={name}>
      {fact.place ? (
        <button type="button" class="plain" title={fact.full ?? ''} onClick={() => reveal(fact.place!)}>
          {inside}
        </button>
      ) : (
        inside
      )}
    </li>
  );
}

function Gauge({ value, limit, most, missed }: NonNullable<Fact['gauge']> & { readonly missed: boolean }) {
  const w = 74;
  const px = (v: number): number => Math.round((w * v) / most);
  const [from, to] = [Math.min(px(value), px(limit)), Math.max(px(value), px(limit))];
  return (
    <svg width={w} height="10" viewBox={`0 0 ${w} 10`} preserveAspectRatio="none" aria-hidden="true">
      <rect class="gauge-track" y="3" width={w} height="4" />
      <rect class="gauge-value" y="3" width={px(value)} height="4" />
      {missed && <rect class="gauge-miss" x={from} y="1.5" width={Math.max(2, to - from)} height="7" />}
      <path class="gauge-tick" d={`M${px(limit)} 0V10`} />
    </svg>
  );
}
