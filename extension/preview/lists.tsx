/** Findings, the sum behind the number of closures, quantities, and the table behind each figure. */
import { useMemo, useRef } from 'preact/hooks';
import type { FindingPicture, PictureData } from '../../language/pictures/data.ts';
import type { SheetView } from '../../language/pictures/layout.ts';
import { Sign } from '../../language/pictures/parts.tsx';
import { type Table, type TableKey, tableKeys, tableOf, tableText } from '../../language/pictures/tables.ts';
import { placeOfThing } from '../../language/pictures/things.ts';
import type { Place } from '../../language/vocabulary/given.ts';
import type { Picture } from './delivery.ts';
import { useTurn } from './turns.ts';
import { useWords } from './words.ts';

export interface ListsProps {
  readonly picture: Picture;
  readonly view: SheetView | undefined;
  /** Keys of the tables that are open. */
  readonly opened: readonly string[];
  readonly toggle: (key: string, open: boolean) => void;
  readonly reveal: (place: Place) => void;
  readonly cure: (picture: Picture, finding: number, fix: number) => void;
  readonly copy: (table: Table, text: string) => void;
}

/** Each list has a turn of its own. */
export function Lists({ picture, view, opened, toggle, reveal, cure, copy }: ListsProps) {
  const t = useWords();
  const aside = useRef<HTMLElement>(null);
  const place = (): Element | null => aside.current;
  return (
    <aside ref={aside} class="lists" aria-label={t('Findings, quantities, tables')}>
      <Findings picture={picture} place={place} reveal={reveal} cure={cure} />
      <Sum picture={picture} place={place} />
      <Quantities
        picture={picture}
        place={place}
        open={opened.includes('quantities')}
        toggle={toggle}
        reveal={reveal}
      />
      {view &&
        tableKeys.map(of => (
          <TableBehind
            of={of}
            picture={picture}
            view={view}
            place={place}
            open={opened.includes(of)}
            toggle={toggle}
            reveal={reveal}
            copy={copy}
          />
        ))}
    </aside>
  );
}

interface InTurn {
  readonly picture: Picture;
  readonly place: () => Element | null;
}

/** Whether a list would say the same of two pictures. Edits go by the number, so that is another then. */
function samePart(part: (data: PictureData) => unknown) {
  return (a: Picture, b: Picture): boolean => a.number === b.number && part(a.data) === part(b.data);
}
const sameFindings = samePart(data => data.findings);
const sameSum = samePart(data => data.verdict);
const sameQuantities = samePart(data => data.quantities);

function Findings({ picture, place, reveal, cure }: InTurn & Pick<ListsProps, 'reveal' | 'cure'>) {
  const t = useWords();
  const shown = useTurn('findings', picture, sameFindings, place);
  return useMemo(() => {
    if (!shown || shown.data.findings.length === 0) return null;
    return (
      <section id="findings">
        <h2>{t('Findings')}</h2>
        <ul class="findings">
          {shown.data.findings.map((finding, i) => (
            <Finding finding={finding} index={i} reveal={reveal} cure={(index, fix) => cure(shown, index, fix)} />
          ))}
        </ul>
      </section>
    );
  }, [shown, t, reveal, cure]);
}

function Sum({ picture, place }: InTurn) {
  const sum = useTurn('sum', picture, sameSum, place)?.data.verdict.sum;
  return useMemo(
    () =>
      sum && (
        <section id="sum">
          <h2>{sum.title}</h2>
          <table>
            <tbody>
              {sum.rows.map(({ text, value }) => (
                <tr>
                  <td>{text}</td>
                  <td class="number">{value}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ),
    [sum],
  );
}

function Quantities({
  picture,
  place,
  open,
  toggle,
  reveal,
}: InTurn & Pick<ListsProps, 'toggle' | 'reveal'> & { readonly open: boolean }) {
  const t = useWords();
  const shown = useTurn('quantities', picture, sameQuantities, place);
  return useMemo(() => {
    if (!shown || shown.data.quantities.length === 0) return null;
    return (
      <details open={open} onToggle={event => toggle('quantities', event.currentTarget.open)}>
        <summary>{t('Quantities')}</summary>
        <table>
          <tbody>
            {shown.data.quantities.map(({ path, label, shown: value, place: at }) => (
              <tr>
                <td>
                  {at ? (
                    <button type="button" class="plain" title={path} onClick={() => reveal(at)}>
                      {label}
                    </button>
                  ) : (
                    label
                  )}
                </td>
                <td class="number">{value}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    );
  }, [shown, open, t, toggle, reveal]);
}

/** The table behind a figure. */
function TableBehind({
  of,
  picture: { data },
  view,
  place,
  open,
  toggle,
  reveal,
  copy,
}: InTurn &
  Pick<ListsProps, 'toggle' | 'reveal' | 'copy'> & {
    readonly of: TableKey;
    readonly view: SheetView;
    readonly open: boolean;
  }) {
  const t = useWords();
  const shown = useTurn(`table ${of}`, { data, view }, sameTables, place);
  return useMemo(() => {
    const table = shown && tableOf(of, shown.data, shown.view, t);
    if (!table) return null;
    return (
      <details id={`table-${of}`} open={open} onToggle={event => toggle(of, event.currentTarget.open)}>
        <summary>{table.title}</summary>
        {open && (
          <>
            <button type="button" class="cure" onClick={() => copy(table, tableText(table))}>
              {t('Copy the table')}
            </button>
            <div class="scroll">
              <table>
                <thead>
                  <tr>
                    {table.columns.map(column => (
                      <th scope="col">{column}</th>
                    ))}
                  </tr>
                </thead>
                <tbody>
                  {table.rows.map(({ cells, thing }) => {
                    const at = thing && placeOfThing(shown.data, thing);
                    return (
                      <tr>
                        {cells.map((cell, k) => (
                          <td>
                            {k === 0 && at ? (
                              <button type="button" class="plain" onClick={() => reveal(at)}>
                                {cell}
                              </button>
                            ) : (
                              cell
                            )}
                          </td>
                        ))}
                      </tr>
                    );
                  })}
                </tbody>
              </table>
            </div>
          </>
        )}
      </details>
    );
  }, [of, shown, open, t, toggle, reveal, copy]);
}

/** A table is one of a night and of a bay on a runway; it doesn't ask how much of them is seen. */
function sameTables(
  a: { readonly data: PictureData; readonly view: SheetView },
  b: { readonly data: PictureData; readonly view: SheetView },
): boolean {
  return (
    a.data === b.data && a.view.runway === b.view.runway && a.view.night === b.view.night && a.view.bay === b.view.bay
  );
}

function Finding({
  finding,
  index,
  reveal,
  cure,
}: Pick<ListsProps, 'reveal'> & {
  readonly finding: FindingPicture;
  readonly index: number;
  readonly cure: (finding: number, fix: number) => void;
}) {
  const t = useWords();
  return (
    <li data-finding={index}>
      <svg width="14" height="14" viewBox="-7 -7 14 14" aria-hidden="true">
        <Sign kind={finding.waived ? 'waived' : finding.severity} x={0} y={0} size={12} />
      </svg>
      <button type="button" class="plain text" onClick={() => reveal(finding.place)}>
        {finding.message}
      </button>
      <span class="about">
        {finding.code}
        {finding.line !== undefined && `, ${t('line {0}', finding.line)}`}
        {finding.waived && `; ${finding.waived}`}
      </span>
      {!finding.waived && finding.fixes.length > 0 && (
        <div class="cures">
          {finding.fixes.slice(0, 4).map((fix, i) => (
            <button type="button" class="cure" onClick={() => cure(index, i)}>
              {fix.title}
            </button>
          ))}
        </div>
      )}
    </li>
  );
}
