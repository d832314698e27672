/** What each frame costs the main thread of a page, told from the browser's own trace. */
import type { Page } from 'playwright-core';

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  /** Time of the thread itself, µs: what other programs take away does not count. */
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

/** Events of the browser while something is done. */
async function traced(page: Page, act: () => Promise<void>, categories: readonly string[]): Promise<TraceEvent[]> {
  const session = await page.context().browser()!.newBrowserCDPSession();
  const events: TraceEvent[] = [];
  session.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])));
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { recordMode: 'recordUntilFull', includedCategories: [...categories] },
  });
  await act();
  const done = new Promise(resolve => session.once('Tracing.tracingComplete', resolve));
  await session.send('Tracing.end');
  await done;
  await session.detach();
  return events;
}

/** The thread that draws the page: of those of its name the busiest. */
function mainThread(events: readonly TraceEvent[]): TraceEvent[] {
  const named = events.filter(each => each.name === 'thread_name' && each.args?.name === 'CrRendererMain');
  const threads = named.map(({ pid, tid }) => events.filter(each => each.pid === pid && each.tid === tid));
  return threads.sort((a, b) => b.length - a.length)[0] ?? [];
}

/** Main-thread work of each frame, ms: all tasks from one frame's beginning to that of the next. */
export async function frameTimes(page: Page, act: () => Promise<void>): Promise<readonly number[]> {
  const events = mainThread(await traced(page, act, ['toplevel', 'benchmark']));
  const begins = events
    .filter(each => each.name === 'ProxyMain::BeginMainFrame' && each.ph === 'X')
    .map(each => each.ts)
    .sort((a, b) => a - b);
  const tasks = events.filter(each => each.name === 'ThreadControllerImpl::RunTask' && each.tdur !== undefined);
  return begins.slice(1).map((end, i) => {
    const own = tasks.filter(({ ts }) => ts >= begins[i]! && ts < end);
    return own.reduce((sum, each) => sum + each.tdur! / 1000, 0);
  });
}
