/** Findings, the sum behind the number of closures, quantities, and the table behind each figure. */
import type { FindingPicture, PictureData } from '../../language/pictures/data.ts';
import type { SheetView } from '../../language/pictures/layout.ts';
import { Sign } from '../../language/pictures/parts.tsx';
import { type Table, tablesOf, tableText } from '../../language/pictures/tables.ts';
import { placeOfThing } from '../../language/pictures/things.ts';
import type { Place } from '../../language/vocabulary/given.ts';
import { useWords } from './words.ts';

export interface ListsProps {
  readonly data: PictureData;
  readonly view: SheetView | undefined;
  readonly opened: readonly string[];
  readonly toggle: (key: string, open: boolean) => void;
  readonly reveal: (place: Place) => void;
  readonly cure: (finding: number, fix: number) => void;
  readonly copy: (table: Table, text: string) => void;
}

export function Lists({ data, view, opened, toggle, reveal, cure, copy }: ListsProps) {
  const t = useWords();
  const { sum } = data.verdict;
  return (
    <aside class="lists" data-unit="lists" aria-label={t('Findings, quantities, tables')}>
      {data.findings.length > 0 && (
        <section id="findings">
          <h2>{t('Findings')}</h2>
          <ul class="findings">
            {data.findings.map((finding, i) => (
              <Finding finding={finding} index={i} reveal={reveal} cure={cure} />
            ))}
          </ul>
        </section>
      )}
      {sum && (
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
      )}
      {data.quantities.length > 0 && (
        <details
          open={opened.includes('quantities')}
          onToggle={event => toggle('quantities', event.currentTarget.open)}
        >
          <summary>{t('Quantities')}</summary>
          <table>
            <tbody>
              {data.quantities.map(({ path, label, shown, place }) => (
                <tr>
                  <td>
                    {place ? (
                      <button type="button" class="plain" title={path} onClick={() => reveal(place)}>
                        {label}
                      </button>
                    ) : (
                      label
                    )}
                  </td>
                  <td class="number">{shown}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </details>
      )}
      {view &&
        tablesOf(data, view, t).map(table => (
          <details
            id={`table-${table.key}`}
            open={opened.includes(table.key)}
            onToggle={event => toggle(table.key, event.currentTarget.open)}
          >
            <summary>{table.title}</summary>
            {opened.includes(table.key) && (
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
                        const place = thing && placeOfThing(data, thing);
                        return (
                          <tr>
                            {cells.map((cell, k) => (
                              <td>
                                {k === 0 && place ? (
                                  <button type="button" class="plain" onClick={() => reveal(place)}>
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
        ))}
    </aside>
  );
}

function Finding({
  finding,
  index,
  reveal,
  cure,
}: Pick<ListsProps, 'reveal' | 'cure'> & { readonly finding: FindingPicture; readonly index: number }) {
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
